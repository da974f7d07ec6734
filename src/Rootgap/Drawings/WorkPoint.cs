using Rootgap.Measure;

namespace Rootgap.Drawings;

/// <summary>What stands at the end of a leg. A closed family: the cases below are all there are.</summary>
public abstract record WorkPoint
{
    private protected WorkPoint()
    {
    }

    /// <summary>The word of the drawing file.</summary>
    public abstract string Word { get; }

    /// <summary>The header goes through uncut.</summary>
    public virtual bool IsPassedThrough => false;

    /// <summary>Name by which another run can start here; null where none can or none is given.</summary>
    public virtual string? Name => null;
}

public enum ElbowRadius
{
    Long,
    Short,
    ThreeD,
    FiveD,
}

/// <summary>An elbow; its turn is that from this leg to the next.</summary>
public sealed record ElbowPoint(ElbowRadius Radius) : WorkPoint
{
    public override string Word => "elbow";
}

/// <summary>A tee. <paramref name="EnterBranch"/>: the line comes in at the branch, the next leg takes one run end.</summary>
/// <param name="Branch">Direction of the branch; null where the line enters by it.</param>
/// <param name="BranchSize">Of a reducing tee; null for a straight one.</param>
/// <param name="RunSize">Size of the run of a tee entered by its branch, where it is larger; null otherwise.</param>
public sealed record TeePoint(string? TeeName, Vector? Branch, NominalSize? BranchSize, bool EnterBranch, NominalSize? RunSize) : WorkPoint
{
    public override string Word => "tee";
    public override string? Name => TeeName;
}

/// <summary>A reducer; its work point is the far end.</summary>
/// <param name="Flat">The flat side of an eccentric one as a direction; null where none is stated.</param>
public sealed record ReducerPoint(NominalSize Size, bool IsEccentric, Vector? Flat) : WorkPoint
{
    public override string Word => "reducer";
}

/// <summary>An integrally reinforced branch outlet on the header.</summary>
public sealed record OutletPoint(string? OutletName, Vector Branch, NominalSize Size, FittingEnds Ends) : WorkPoint
{
    public override string Word => "outlet";
    public override bool IsPassedThrough => true;
    public override string? Name => OutletName;
}

/// <summary>Pipe set on the header and welded.</summary>
public sealed record StubInPoint(string? StubName, Vector Branch, NominalSize Size, bool HasPad) : WorkPoint
{
    public override string Word => "stub-in";
    public override bool IsPassedThrough => true;
    public override string? Name => StubName;
}

/// <summary>How a flange's bolt holes stand about the pipe.</summary>
/// <param name="Turn">From the straddling position, radians; half a pitch for on-centre is resolved when the number of holes is known.</param>
/// <param name="OnCentre">A hole stands on the reference line.</param>
/// <param name="From">The reference line, where the face is neither upright nor level; null for the usual one.</param>
public sealed record HoleOrientation(double Turn, bool OnCentre, Vector? From)
{
    /// <summary>Two holes straddle the usual line (common practice).</summary>
    public static readonly HoleOrientation Straddle = new(0, OnCentre: false, From: null);
}

/// <summary>An end flange, mating with something that is not in this drawing.</summary>
/// <param name="BoltingByOthers">The gasket and bolts are on the neighbour's list.</param>
public sealed record FlangePoint(HoleOrientation Holes, bool BoltingByOthers) : WorkPoint
{
    public override string Word => "flange";
}

/// <summary>Two flanges face to face; the work point is the middle of the gasket.</summary>
public sealed record FlangedJointPoint(HoleOrientation Holes) : WorkPoint
{
    public override string Word => "joint";
}

public enum ValveKind
{
    Gate,
    Globe,
    Check,
    Ball,
    Butterfly,
}

/// <summary>A valve; the work point is its centre.</summary>
/// <param name="FaceToFace">Overrides the table, mm; null where the table tells it.</param>
/// <param name="Stem">Direction of the stem; null where the drawing does not say.</param>
/// <param name="Mass">From the maker's sheet, kg; null where unknown.</param>
public sealed record ValvePoint(ValveKind Kind, FittingEnds Ends, double? FaceToFace, Vector? Stem, double? Mass, HoleOrientation Holes) : WorkPoint
{
    public override string Word => "valve";
}

/// <summary>Pipe to pipe; the middle of the root gap. At a run's end: to an existing line's pipe.</summary>
/// <param name="Continues">The drawing that goes on from here; null where none is named.</param>
public sealed record WeldPoint(string? Continues) : WorkPoint
{
    public override string Word => "weld";
}

public sealed record CapPoint : WorkPoint
{
    public override string Word => "cap";
}

public enum OpenEnds
{
    Bevel,
    Plain,
    Threaded,
}

/// <summary>The plain end of the pipe.</summary>
public sealed record OpenPoint(OpenEnds Ends, string? Continues) : WorkPoint
{
    public override string Word => "open";
}

/// <summary>A dimension point in a straight run.</summary>
public sealed record DimensionPoint : WorkPoint
{
    public override string Word => "point";
    public override bool IsPassedThrough => true;
}

/// <summary>The run ends at the free end of a tee, outlet or stub-in of another run, and so closes a loop.</summary>
public sealed record TieInPoint(string With) : WorkPoint
{
    public override string Word => "tie-in";
}
