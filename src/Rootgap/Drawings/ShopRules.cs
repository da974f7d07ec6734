using Rootgap.Measure;
using Rootgap.Sums;

namespace Rootgap.Drawings;

/// <summary>The shop's own rules. Every one has a default, with its source.</summary>
public sealed record ShopRules
{
    /// <summary>Root gap of a butt weld, mm. Default 3.2 (common practice: 1.6 to 3.2 for an open root; the welding procedure decides).</summary>
    public double RootGap { get; init; } = 3.2;

    /// <summary>Root gap between a branch pipe set on its header and the header, mm; null: as <see cref="RootGap"/>.</summary>
    public double? BranchGap { get; init; }

    /// <summary>The gap under a branch set on its header, mm.</summary>
    public double BranchRootGap => BranchGap ?? RootGap;

    /// <summary>Root gap between an outlet and its header, mm. Default 0: makers' heights are read from the header's outside.</summary>
    public double OutletGap { get; init; }

    /// <summary>The shop's mean shortening of one butt weld, mm: added to the pipe whole at a fitting, half at another pipe; null where the shop has not measured its own, and then 0 in the sums.</summary>
    public double? Shrinkage { get; init; }

    /// <summary>Fitting-to-fitting distances leave the root gap out.</summary>
    public bool MakeUpGapIgnored { get; init; }

    /// <summary>Left on the pipe at a final-fit weld, mm. Default 100, of a drawing in inches too (common practice: 50 to 150).</summary>
    public double FinalFitExtra { get; init; } = 100;

    /// <summary>Width of the saw cut, mm. Default 3 (common practice for a band saw or an abrasive wheel).</summary>
    public double Kerf { get; init; } = 3;

    /// <summary>Shortest pipe that can be clamped and welded at both ends, mm. Default 100 (common practice).</summary>
    public double ShortestPipe { get; init; } = 100;

    /// <summary>Stock lengths, mm. Default 6000 and 12000 (common practice: single and double random).</summary>
    public IReadOnlyList<double> Stock { get; init; } = [6000, 12000];

    /// <summary>Longest, widest and highest spool that can be carried, mm. Default 12000 x 2400 x 2400 (common practice: a lorry's bed).</summary>
    public double EnvelopeLength { get; init; } = 12000;

    public double EnvelopeWidth { get; init; } = 2400;

    public double EnvelopeHeight { get; init; } = 2400;

    /// <summary>Heaviest spool that can be lifted, kg. Default 3000 (common practice).</summary>
    public double EnvelopeMass { get; init; } = 3000;

    /// <summary>How far a pipe stays off the bottom of its socket, mm. Default 1.6 (ASME B31.3 fig. 328.5.2C: about 1/16 in. before welding).</summary>
    public double SocketGap { get; init; } = 1.6;

    /// <summary>Shortest distance between two butt welds, mm; null: one outside diameter, at least 50 (common practice).</summary>
    public double? WeldSpacing { get; init; }

    /// <summary>Greatest step between two insides at a weld, mm. Default 1.5 (common practice; ASME B31.3 328.4.3 leaves it to the welding procedure).</summary>
    public double HiLo { get; init; } = 1.5;

    /// <summary>Greatest change of the root gap round a final-fit weld, mm: more is no matter of the cut. Default 0.8 (common practice).</summary>
    public double GapVariation { get; init; } = 0.8;

    /// <summary>Longest piece that is stood on end for fit-up, mm. Default 1200 (common practice).</summary>
    public double OnEndLimit { get; init; } = 1200;

    /// <summary>On end it stands free up to this height of its centre of mass, in breadths of its base. Default 3 (common practice); higher, it is tied back.</summary>
    public double OnEndHeight { get; init; } = 3;

    /// <summary>Underside of the pipe on stands over the floor, mm. Default 900, in a drawing in inches 3'-0" (common practice: a hand's working height).</summary>
    public double StandHeight { get; init; } = 900;

    /// <summary>Highest that stands are screwed up, mm. Default 1250 (common practice).</summary>
    public double HighestStand { get; init; } = 1250;

    /// <summary>Heaviest that is held in a pipe vice, kg. Default 25 (common practice: what one person lifts).</summary>
    public double ViceLimit { get; init; } = 25;

    /// <summary>Linear fabrication tolerance, mm; null: PFI ES-3 by size.</summary>
    public double? LinearTolerance { get; init; }

    /// <summary>Angular fabrication tolerance at a face, radians; null: PFI ES-3.</summary>
    public double? AngularTolerance { get; init; }

    /// <summary>Measured take-offs that replace the table's, mm, by material item.</summary>
    public IReadOnlyDictionary<int, double> MeasuredTakeOffs { get; init; } = new Dictionary<int, double>();

    /// <summary>How far each thing may be out before it is built.</summary>
    public ForecastRules Forecast { get; init; } = new();

    public SplitRules Split { get; init; } = new();

    /// <summary>Whose word is needed before which step. Default none.</summary>
    public IReadOnlyList<HoldPoint> HoldPoints { get; init; } = [];

    /// <summary>What bolts are drawn to, by the shop's bolting procedure; null where it gives none, and then no torque is printed.</summary>
    public BoltingRule? Bolting { get; init; }

    /// <summary>Figures for the weld metal and what is bought for it.</summary>
    public WeldingFigures Welding { get; init; } = new();

    public SourceRow Source { get; init; } = SourceRow.None;

    /// <summary>The rules of a shop that has written none: what is set out with a tape is round in the drawing's units.</summary>
    public static ShopRules Usual(Units units) => units == Units.Inches ? new() { StandHeight = 3 * 12 * LengthText.Inch } : new();
}

/// <summary>A step that waits for somebody's word.</summary>
/// <param name="Before">The step that waits: one of <see cref="Steps"/>.</param>
/// <param name="Needs">What must be said before: one of <see cref="Words"/>.</param>
/// <param name="By">Name or role of whoever must have said it; empty where anybody may.</param>
public sealed record HoldPoint(string Before, string Needs, string By)
{
    public static IReadOnlyList<string> Steps { get; } = ["fitted", "tacked", "welded", "checked", "heat treated", "bolted up", "released", "painted", "tested", "insulated"];

    public static IReadOnlyList<string> Words { get; } = ["heats", "fit-up seen", "welded", "visual", "examined", "heat treated", "bolted up", "released", "painted", "tested"];
}

/// <summary>One row of the drawing's material list.</summary>
public sealed record MaterialItem
{
    public required int Item { get; init; }

    /// <summary>As written: <c>elbow 90 LR</c>, <c>flange WN RF</c>.</summary>
    public required string What { get; init; }

    /// <summary>What the words of <see cref="What"/> say.</summary>
    public required WareWords Words { get; init; }

    public NominalSize Size { get; init; }

    /// <summary>The second size of a reducer or a reducing tee; none otherwise.</summary>
    public NominalSize Size2 { get; init; }

    public string Schedule { get; init; } = "";
    public string Class { get; init; } = "";
    public string Bore { get; init; } = "";
    public string Material { get; init; } = "";

    /// <summary>Length of a bolt, mm; null where none is written.</summary>
    public double? Length { get; init; }

    /// <summary>How many; null where the quantity is a length.</summary>
    public double? Count { get; init; }

    /// <summary>How much pipe, mm; null where the quantity is a count.</summary>
    public double? Quantity { get; init; }

    public string Heat { get; init; } = "";
    public required SourceRow Source { get; init; }
}
