using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.Routes;

/// <summary>A drawing placed in space: its components with all their ends, the pipes between them as drawn, and the joints.</summary>
/// <remarks>Lengths here are as drawn: shrinkage allowance and final-fit extra come with the cut lengths.</remarks>
public sealed record Route
{
    public required Drawing Drawing { get; init; }

    /// <summary>Fittings, flanges, valves and gaskets, numbered along the line.</summary>
    public required IReadOnlyList<Component> Components { get; init; }

    public required IReadOnlyList<PipePiece> Pipes { get; init; }

    public required IReadOnlyList<Joint> Joints { get; init; }

    public required IReadOnlyList<RunLine> Runs { get; init; }

    /// <summary>What was found while placing: sizes that a standard does not have, loops that do not close, fittings that overlap.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }

    /// <summary>The component with an id; null where the id is not a component's.</summary>
    public Component? ComponentOf(string id) => Number(id, 'C') is > 0 and var n && n <= Components.Count ? Components[n - 1] : null;

    /// <summary>The pipe with an id; null where the id is not a pipe's.</summary>
    public PipePiece? PipeOf(string id) => Number(id, 'P') is > 0 and var n && n <= Pipes.Count ? Pipes[n - 1] : null;

    /// <summary>The row of the leg at whose end, or in which, something stands; the start's where <paramref name="leg"/> is -1.</summary>
    public SourceRow RowOf(int run, int leg) => leg < 0 ? Runs[run].Run.Start.Source : Runs[run].Run.Legs[leg].Source;

    private static int Number(string id, char kind) =>
        id.Length > 1 && id[0] == kind && int.TryParse(id.AsSpan(1), System.Globalization.NumberStyles.None, System.Globalization.CultureInfo.InvariantCulture, out var n) ? n : 0;
}

/// <summary>The work points of a run: the start and the end of each leg.</summary>
/// <param name="Directions">Unit direction of each leg.</param>
/// <param name="Distances">Distance of each leg along its direction, mm; computed where the leg is made up.</param>
/// <param name="Sizes">Nominal size of each leg's pipe.</param>
public sealed record RunLine(Run Run, IReadOnlyList<Point> Points, IReadOnlyList<Vector> Directions, IReadOnlyList<double> Distances, IReadOnlyList<NominalSize> Sizes);

/// <summary>An end of a component.</summary>
/// <param name="Face">Unit vector that points out of the component.</param>
public readonly record struct Port(Point At, Vector Face);

/// <summary>Something that stands in the line: a fitting, flange, valve or gasket.</summary>
public sealed record Component
{
    /// <summary><c>C1</c>, <c>C2</c> ... along the line.</summary>
    public required string Id { get; init; }

    public required Ware Ware { get; init; }

    public required NominalSize Size { get; init; }

    /// <summary>Small end of a reducer, branch of a reducing tee, header of an outlet; none otherwise.</summary>
    public NominalSize Size2 { get; init; }

    /// <summary>Index of the run in the drawing.</summary>
    public required int Run { get; init; }

    /// <summary>Index of the leg at whose end it stands; -1 at the start of the run.</summary>
    public required int Leg { get; init; }

    /// <summary>Ends along the line, the branch last.</summary>
    public required IReadOnlyList<Port> Ports { get; init; }

    /// <summary>The work point that it stands at.</summary>
    public required Point WorkPoint { get; init; }

    /// <summary>What the leg there is made of.</summary>
    public required Line Line { get; init; }

    /// <summary>Its name in the standard tables and on the sheets: <c>elbow 90 LR</c>, <c>flange WN</c>, <c>valve gate</c>.</summary>
    public required string Name { get; init; }

    /// <summary>The work point as the drawing writes it.</summary>
    public required WorkPoint Drawn { get; init; }

    /// <summary>Turn of an elbow, radians; null otherwise.</summary>
    public double? Turn { get; init; }

    /// <summary>Bend radius of an elbow, mm; null otherwise.</summary>
    public double? Radius { get; init; }

    /// <summary>The stock elbow has to be cut to its turn.</summary>
    public bool IsCut { get; init; }

    /// <summary>Reference line of a flange's bolt holes, unit vector in the face; null where none can be named.</summary>
    public Vector? HoleLine { get; init; }

    /// <summary>Turn of the bolt circle from straddling that line, radians (right-handed about the face).</summary>
    public double HoleTurn { get; init; }

    /// <summary>Flanged valves and gaskets belong to no spool.</summary>
    public bool IsLoose { get; init; }

    /// <summary>The row of the material list: as the drawing says, or as guessed; null where none fits.</summary>
    public MaterialItem? Item { get; init; }

    /// <summary>The drawing does not say the item: it was found by kind, size and rating.</summary>
    public bool IsItemGuessed { get; init; }

    /// <summary>Spool that the drawing names for it; null where it names none.</summary>
    public string? SpoolName { get; init; }

    public required SourceRow Source { get; init; }
}

/// <summary>One term of a sum: what it is in words, how much, and where the figure comes from.</summary>
/// <param name="Mm">Signed, mm.</param>
public readonly record struct Term(string What, double Mm, string Source);

public enum EndKind
{
    /// <summary>A butt weld to a fitting.</summary>
    Butt,

    /// <summary>A butt weld to another pipe; the work point is the middle of the gap.</summary>
    ButtHalfGap,

    /// <summary>In a socket.</summary>
    Socket,

    /// <summary>In a slip-on flange.</summary>
    SlipOn,

    Threaded,

    /// <summary>Set on a header.</summary>
    SetOn,

    /// <summary>Nothing follows.</summary>
    Free,

    /// <summary>The pipe runs on: no end at all.</summary>
    Passing,
}

/// <summary>How a pipe ends at a work point.</summary>
/// <param name="TakeOff">What stands between the work point and the pipe's end (the root gap aside), as terms of the sum; negative.</param>
public sealed record PipeEnd(EndKind Kind, IReadOnlyList<Term> TakeOff)
{
    public static readonly PipeEnd Passing = new(EndKind.Passing, []);

    /// <summary>The take-off as a positive distance, mm.</summary>
    public double Distance { get; } = -TakeOff.Sum(t => t.Mm);

    public bool IsButt => Kind is EndKind.Butt or EndKind.ButtHalfGap;

    /// <summary>Root gap between the take-off and the pipe, mm.</summary>
    public double Gap(double rootGap) => Kind switch
    {
        EndKind.Butt => rootGap,
        EndKind.ButtHalfGap => rootGap / 2,
        _ => 0,
    };
}

/// <summary>One piece of pipe as drawn, from end to end; it may run through dimension points, outlets and stub-ins.</summary>
public sealed record PipePiece
{
    /// <summary><c>P1</c>, <c>P2</c> ... along the line.</summary>
    public required string Id { get; init; }

    public required int Run { get; init; }

    /// <summary>Leg in which it starts, and leg in which it ends.</summary>
    public required int FirstLeg { get; init; }

    public required int LastLeg { get; init; }

    public required NominalSize Size { get; init; }

    public required Line Line { get; init; }

    /// <summary>Outside diameter and wall, mm; 0 where the standard has none.</summary>
    public required double Outside { get; init; }

    public required double Wall { get; init; }

    /// <summary>Its two ends as drawn.</summary>
    public required Point Start { get; init; }

    public required Point End { get; init; }

    public required Vector Direction { get; init; }

    public required PipeEnd AtStart { get; init; }

    public required PipeEnd AtEnd { get; init; }

    /// <summary>Preparation of a free end at the start or at the end; null where the end is joined.</summary>
    public OpenEnds? FreeStart { get; init; }

    public OpenEnds? FreeEnd { get; init; }

    /// <summary>Final-fit extra is left at the start, or at the end.</summary>
    public bool ExtraAtStart { get; init; }

    public bool ExtraAtEnd { get; init; }

    public MaterialItem? Item { get; init; }

    public bool IsItemGuessed { get; init; }

    public double Inside => Math.Max(0, Outside - (2 * Wall));
}

public enum JointKind
{
    Butt,
    Socket,
    Fillet,
    Branch,
    Threaded,
    Bolted,
}

/// <summary>Where two things are joined.</summary>
public sealed record Joint
{
    /// <summary>Welds and threads <c>W1</c>, <c>W2</c> ..., bolted joints <c>B1</c>, <c>B2</c> ..., along the line.</summary>
    public required string Id { get; init; }

    public required JointKind Kind { get; init; }

    public required WeldPlace Place { get; init; }

    public required NominalSize Size { get; init; }

    /// <summary>Wall at the weld, mm; 0 for bolted joints.</summary>
    public required double Wall { get; init; }

    /// <summary>Ids of what is joined, in line order; one id where the other side is not in this drawing.</summary>
    public required IReadOnlyList<string> Between { get; init; }

    public required Point At { get; init; }

    /// <summary>Unit vector across the joint, along the line.</summary>
    public required Vector Axis { get; init; }

    /// <summary>Root gap, or thickness of the gasket, mm.</summary>
    public required double Gap { get; init; }

    public required int Run { get; init; }

    /// <summary>Index of the leg; -1 at the start of the run.</summary>
    public required int Leg { get; init; }

    public required SourceRow Source { get; init; }

    /// <summary>Flange class of a bolted joint; empty otherwise.</summary>
    public string Class { get; init; } = "";

    /// <summary>The gasket and the bolts are on somebody else's list.</summary>
    public bool ByOthers { get; init; }

    /// <summary>Length that the studs span besides two flanges and one gasket, mm: a wafer valve and its second gasket.</summary>
    public double ExtraGrip { get; init; }

    /// <summary>Its studs are counted at the other joint of the same wafer valve.</summary>
    public bool SharesStuds { get; init; }

    public bool IsWeld => Kind is JointKind.Butt or JointKind.Socket or JointKind.Fillet or JointKind.Branch;
}
