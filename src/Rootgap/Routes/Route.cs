using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Standards;

namespace Rootgap.Routes;

/// <summary>A drawing placed in space: its components with all their ends, the pipes between them as drawn, and the joints.</summary>
/// <remarks>Lengths here are as drawn: shrinkage allowance and final-fit extra come with the cut lengths.</remarks>
public sealed record Route
{
    public required Drawing Drawing { get; init; }

    /// <summary>Fittings, flanges, valves and gaskets, numbered along the line.</summary>
    public required IReadOnlyList<Component> Components { get; init; }

    public required IReadOnlyList<PipePiece> Pipes { get; init; }

    /// <summary>What joins the line's parts. Welds of supports stand with their supports: they part nothing.</summary>
    public required IReadOnlyList<Joint> Joints { get; init; }

    /// <summary>Supports and attachments, numbered <c>PS1</c>, <c>PS2</c> ... along the line; the welds of those that are welded on, <c>A1</c>, <c>A2</c> ...</summary>
    public required IReadOnlyList<Support> Supports { get; init; }

    /// <summary>Reinforcing pads, numbered <c>RP1</c>, <c>RP2</c> ... along the line; their welds stand in one row with those of supports.</summary>
    public required IReadOnlyList<Pad> Pads { get; init; }

    /// <summary>The mitre welds of bends, each between a bend and itself; their numbers stand in one row with those of supports and pads.</summary>
    public required IReadOnlyList<Joint> Seams { get; init; }

    /// <summary>Welds of supports, pads and mitred bends, in line order.</summary>
    public IEnumerable<Joint> Attachments => Supports.Select(s => s.Weld).OfType<Joint>().Concat(Pads.Select(p => p.Weld)).Concat(Seams).OrderBy(j => j.Run).ThenBy(j => j.Leg).ThenBy(j => j.Id.Length).ThenBy(j => j.Id, StringComparer.Ordinal);

    public required IReadOnlyList<RunLine> Runs { get; init; }

    /// <summary>What was found while placing: sizes that a standard does not have, loops that do not close, fittings that overlap.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }

    /// <summary>The component with an id; null where the id is not a component's.</summary>
    public Component? ComponentOf(string id) => Number(id, 'C') is > 0 and var n && n <= Components.Count ? Components[n - 1] : null;

    /// <summary>The pipe with an id; null where the id is not a pipe's.</summary>
    public PipePiece? PipeOf(string id) => Number(id, 'P') is > 0 and var n && n <= Pipes.Count ? Pipes[n - 1] : null;

    /// <summary>The support with an id; null where there is none.</summary>
    public Support? SupportOf(string id) => Supports.FirstOrDefault(s => s.Id == id);

    /// <summary>The component, pipe or support with an id; null where there is none.</summary>
    public Part? PartOf(string id) => ComponentOf(id) ?? PipeOf(id) ?? SupportOf(id) ?? (Part?)Pads.FirstOrDefault(p => p.Id == id);

    /// <summary>Pipes for which a leg without a component at its end, as one to a point, a support or a weld, or with a loose one there, as a flanged valve, names a spool: the spool is the pipe's, wherever on the pipe the leg ends.</summary>
    public IEnumerable<(string Spool, PipePiece Pipe, SourceRow Row)> NamedPipes
    {
        get
        {
            foreach (var pipe in Pipes)
            {
                for (var i = pipe.FirstLeg; i <= pipe.LastLeg; i++)
                {
                    if (Runs[pipe.Run].Run.Legs[i] is { Spool: { } name, To: WeldPoint or OpenPoint or DimensionPoint or SupportPoint or StubInPoint or TieInPoint or ValvePoint { Ends: FittingEnds.Flanged } or InLineItemPoint { Ends: FittingEnds.Flanged } } leg)
                        yield return (name, pipe, leg.Source);
                }
            }
        }
    }

    /// <summary>The row of the leg at whose end, or in which, something stands; the start's where <paramref name="leg"/> is -1.</summary>
    public SourceRow RowOf(int run, int leg) => leg < 0 ? Runs[run].Run.Start.Source : Runs[run].Run.Legs[leg].Source;

    /// <summary>Whether a joint is with the pipe of the next drawing, which goes on there.</summary>
    public bool GoesOn(Joint joint) => joint.Between.Count == 1 && EndRow(joint).Has("continues");

    /// <summary>The row that says what stands outside at a joint with it: the start of its run, whose weld is made by the first leg, or its last leg.</summary>
    public SourceRow EndRow(Joint joint) => StartsRun(joint) ? Runs[joint.Run].Run.Start.Source : joint.Source;

    /// <summary>Whether a joint with a thing outside the drawing stands at the start of its run, and not at its end.</summary>
    public bool StartsRun(Joint joint)
    {
        var points = Runs[joint.Run].Points;
        return Runs[joint.Run].Run.Start.Ends is not null && joint.At.To(points[0]) < joint.At.To(points[^1]);
    }

    /// <summary>Up to this size a straight branch to a flange carries what is bolted to it: an instrument, an air valve (common practice).</summary>
    private const double SmallBranch = 2;

    /// <summary>
    /// Whether what is bolted to an end flange hangs on the line itself: the branch is small and goes straight from a header of at least twice its size, and the drawing
    /// gives no place for the flange.
    /// </summary>
    public bool HangsOnLine(Joint joint)
    {
        if (joint.Kind != JointKind.Bolted || joint.Between.Count != 1 || joint.Size.Inches > SmallBranch || Runs[joint.Run] is not { Run: { Start.From: { } from, Legs: [.., { At: null }] } } branch)
            return false;
        if (branch.Directions.Any(d => d.Dot(branch.Directions[0]) < 1 - 1e-6))
            return false;
        return Runs.SelectMany(r => r.Run.Legs.Zip(r.Sizes)).FirstOrDefault(l => l.First.To.Name == from) is (not null, var header) && joint.Size.Inches * 2 <= header.Inches;
    }

    private static int Number(string id, char kind) =>
        id.Length > 1 && id[0] == kind && int.TryParse(id.AsSpan(1), System.Globalization.NumberStyles.None, System.Globalization.CultureInfo.InvariantCulture, out var n) ? n : 0;
}

/// <summary>The work points of a run: the start and the end of each leg.</summary>
/// <param name="Directions">Unit direction of each leg.</param>
/// <param name="Distances">Distance of each leg along its direction, mm; computed where the leg is made up.</param>
/// <param name="Sizes">Nominal size of each leg's pipe.</param>
public sealed record RunLine(Run Run, IReadOnlyList<Point> Points, IReadOnlyList<Vector> Directions, IReadOnlyList<double> Distances, IReadOnlyList<NominalSize> Sizes);

/// <summary>One term of a sum: what it is in words, how much, and where the figure comes from.</summary>
/// <param name="Mm">Signed, mm.</param>
public readonly record struct Term(string What, double Mm, Origin Origin);

public enum EndKind
{
    /// <summary>A butt weld to a fitting.</summary>
    Butt,

    /// <summary>A butt weld to another pipe; the work point is the middle of the gap.</summary>
    ButtHalfGap,

    /// <summary>In a socket.</summary>
    Socket,

    /// <summary>A fitting's own plain end, a swage's: it goes into the socket of the next.</summary>
    PlainMale,

    /// <summary>A fitting's own thread, a plug's: it goes into the thread of the next.</summary>
    ThreadedMale,

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

    /// <summary>The part of a butt weld's shrinkage that the pipe takes: all of it at a fitting, half at another pipe.</summary>
    public double ShrinkageShare => Kind switch { EndKind.Butt => 1, EndKind.ButtHalfGap => 0.5, _ => 0 };

    /// <summary>Whether it is a fitting's own end that goes into another fitting, and not a place for a pipe.</summary>
    public bool IsMale => Kind is EndKind.PlainMale or EndKind.ThreadedMale;

    /// <summary>Whether a fitting's own end goes into the other one.</summary>
    public bool Takes(PipeEnd other) => (Kind == EndKind.Socket && other.Kind == EndKind.PlainMale) || (Kind == EndKind.Threaded && other.Kind == EndKind.ThreadedMale);

    public bool IsButt => Kind is EndKind.Butt or EndKind.ButtHalfGap;

    /// <summary>Root gap between the take-off and the pipe, mm.</summary>
    public double Gap(double rootGap) => Kind switch
    {
        EndKind.Butt => rootGap,
        EndKind.ButtHalfGap => rootGap / 2,
        _ => 0,
    };
}

public enum JointKind
{
    Butt,
    Socket,
    Fillet,
    Branch,
    Threaded,
    Bolted,

    /// <summary>The weld of a support or a pad on a pipe that goes through.</summary>
    Attachment,
}

/// <summary>Where two things are joined.</summary>
public sealed record Joint
{
    /// <summary>Welds and threads <c>W1</c>, <c>W2</c> ..., bolted joints <c>B1</c>, <c>B2</c> ..., welds of supports <c>A1</c>, <c>A2</c> ..., along the line: a support more or less renumbers no weld of the line.</summary>
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

    /// <summary>The office's own number of the weld; empty where it gives none.</summary>
    public string Office { get; init; } = "";

    /// <summary>Its name with the office's number beside it: <c>W5 (23)</c>.</summary>
    public string Called => Office.Length > 0 ? $"{Id} ({Office})" : Id;

    /// <summary>The gasket and the bolts are on somebody else's list.</summary>
    public bool ByOthers { get; init; }

    /// <summary>Length that the studs span besides two flanges and one gasket, mm: a wafer valve and its second gasket.</summary>
    public double ExtraGrip { get; init; }

    /// <summary>Its studs are counted at the other joint of the same wafer valve.</summary>
    public bool SharesStuds { get; init; }

    /// <summary>A weld to pipe that is not in this drawing: it is there already, and springs when it is cut.</summary>
    public bool MeetsExistingPipe => IsWeld && Between.Count == 1;

    /// <summary>A weld that holds the line itself together.</summary>
    public bool IsWeld => Kind is JointKind.Butt or JointKind.Socket or JointKind.Fillet or JointKind.Branch;
}
