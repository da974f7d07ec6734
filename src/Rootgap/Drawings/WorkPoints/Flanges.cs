using Rootgap.Measure;

namespace Rootgap.Drawings;

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
/// <param name="IsBlinded">A blind flange is bolted against it: it mates with nothing else.</param>
public sealed record FlangePoint(HoleOrientation Holes, bool BoltingByOthers, bool IsBlinded) : WorkPoint
{
    internal static readonly WorkPointKind OfFile = new("flange", ["holes", "holes from", "bolting", "blinded"], Read)
    {
        Ware = Ware.Flange,
        EndsRun = true,
        CanStart = true,
    };

    internal override WorkPointKind Written => OfFile;

    private static FlangePoint Read(Fields f)
    {
        var (byOthers, blinded) = (f.Word("bolting", ["here", "by others"]) == "by others", f.YesNo("blinded") == true);
        if (byOthers && blinded)
            f.Error("key-does-not-fit", "bolting", "This flange is blinded: its gasket and bolts are in this drawing.", "Leave `bolting` out.");
        return new(f.Holes(), byOthers && !blinded, blinded);
    }
}

/// <summary>Two flanges face to face; the work point is the middle of the gasket.</summary>
public sealed record FlangedJointPoint(HoleOrientation Holes) : WorkPoint
{
    internal static readonly WorkPointKind OfFile = new("joint", ["holes", "holes from"], f => new FlangedJointPoint(f.Holes())) { Ware = Ware.Flange };

    internal override WorkPointKind Written => OfFile;
}
