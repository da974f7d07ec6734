using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.Drawings;

/// <summary>One piping isometric as written down, in the order a fitter reads it: nothing placed, nothing computed.</summary>
public sealed record Drawing
{
    /// <summary>The drawing's number.</summary>
    public required string Number { get; init; }

    /// <summary>Empty where the drawing gives none.</summary>
    public string Revision { get; init; } = "";

    public string Title { get; init; } = "";

    /// <summary>Unit of bare numbers, and the column in which the standards are read.</summary>
    public Units Units { get; init; }

    /// <summary>What every leg has unless it says otherwise.</summary>
    public required Line Line { get; init; }

    public Service Service { get; init; } = new();

    public ShopRules Shop { get; init; } = new();

    public IReadOnlyList<MaterialItem> Materials { get; init; } = [];

    public required IReadOnlyList<Run> Runs { get; init; }

    /// <summary>The pressure test of the line.</summary>
    public TestRules Test { get; init; } = new();

    /// <summary>Where slings are made fast, where the drawing says it.</summary>
    public IReadOnlyList<LiftRow> Lift { get; init; } = [];

    /// <summary>Findings that the drawing accepts, each with its reason.</summary>
    public IReadOnlyList<Acceptance> Accepted { get; init; } = [];

    /// <summary>Other files of the job that are this drawing in this revision; empty as a rule. Whoever opens the job's files says so.</summary>
    public IReadOnlyList<string> AlsoIn { get; init; } = [];

    /// <summary>A row as people say it: run and leg, counted from one.</summary>
    public string PlaceOf(RowPath at)
    {
        if (at.Run is not { } r || r >= Runs.Count)
            return at.IsDrawing ? "drawing" : at.ToString();
        var run = Runs[r].Name;
        return at.Leg is { } leg ? string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{run}, leg {leg + 1}") : at.IsStart ? $"{run}, start" : run;
    }

    /// <summary>Where the drawing stands: its file and the row of each key at the top.</summary>
    public required SourceRow Source { get; init; }
}

/// <summary>An accepted finding: rule, the place (a path or the start of one; empty for the whole drawing) and the reason.</summary>
public sealed record Acceptance(string Rule, string At, string Why, SourceRow Source);

/// <summary>A row of the source file: its own place and the place of each value in it.</summary>
public sealed class SourceRow
{
    private readonly YamlMap? map;

    internal SourceRow(YamlMap? map, Place where, RowPath path)
    {
        this.map = map;
        Where = where;
        Path = path;
    }

    /// <summary>A row that stands in no file (made by a program).</summary>
    public static SourceRow None { get; } = new(null, default, RowPath.Drawing);

    /// <summary>Where it stands in the file's tree.</summary>
    public RowPath Path { get; }

    /// <summary>Where the row begins.</summary>
    public Place Where { get; }

    /// <summary>The place of the value of a key, or of the row where the key is not written.</summary>
    public Place this[string key] => map?[key]?.Where ?? Where;

    /// <summary>Whether the row writes the key itself.</summary>
    public bool Has(string key) => map?[key] is not null;

    /// <summary>Whether the row writes a key inside the entry of another: the class of the fittings in <c>line</c>.</summary>
    public bool Has(string entry, string key) => map?[entry] is YamlMap within && within[key] is not null;

    /// <summary>The value of a key as written; null where it is not written or is no single value.</summary>
    public string? Text(string key) => (map?[key] as YamlText)?.Value;
    /// <summary>The change that writes another value for a key; null where the row does not write it, or stands in a file that is no YAML.</summary>
    public Change? Replace(string key, string newText, string says) =>
        map?[key] is YamlText { Where: var at } && IsYaml(at) ? new(at, newText, says) : null;

    /// <summary>The change of a cell where the row stands in a CSV or XLSX list; null where it stands in a text, or its list has no such cell.</summary>
    public Change? InSheet(string key, string newText, string says) =>
        map?[key] is YamlText { Where: { IsKnown: true } at } && !IsYaml(at) && !string.IsNullOrEmpty(at.File) ? new(at, newText, says) : null;

    /// <summary>The change that takes a key out with its value; null where the row does not write it on one line.</summary>
    public Change? TakeOut(string key, string says)
    {
        foreach (var (k, v) in map?.Pairs ?? [])
        {
            if (k.Value == key && v is YamlText && k.Where.Line == v.Where.Line && IsYaml(k.Where))
                return new(k.Where with { EndColumn = v.Where.EndColumn }, "", says) { TakesOutEntry = true };
        }

        return null;
    }

    /// <summary>The change that writes a new key behind another one; null where the row does not write that one.</summary>
    public Change? Add(string behind, string key, string text, string says)
    {
        foreach (var (k, v) in map?.Pairs ?? [])
        {
            if (k.Value != behind || v is not YamlText || !IsYaml(k.Where))
                continue;
            var separator = map!.IsInBraces ? ", " : "\n" + new string(' ', k.Where.Column - 1);
            return new(v.Where with { Column = v.Where.EndColumn }, $"{separator}{key}: {text}", says);
        }

        return null;
    }

    private static bool IsYaml(Place where) =>
        where.IsKnown && (where.File.EndsWith(".yaml", StringComparison.OrdinalIgnoreCase) || where.File.EndsWith(".yml", StringComparison.OrdinalIgnoreCase));
}

/// <summary>A pipe's wall: a schedule of ASME B36.10M or B36.19M, or a thickness of its own.</summary>
/// <param name="Name">The schedule as the standard writes it (<c>40</c>, <c>STD</c>, <c>10S</c>); empty where a thickness is given.</param>
/// <param name="Wall">The thickness given, mm; null where the schedule tells it.</param>
public sealed record Schedule(string Name, double? Wall = null)
{
    public override string ToString() => Wall is { } wall ? LengthText.Millimetres(wall, 2) + " mm" : Name;
}

public enum FlangeKind
{
    WeldNeck,
    SlipOn,
    SocketWeld,
    Threaded,
    LapJoint,
}

public enum Facing
{
    Raised,
    Flat,
    RingJoint,
}

/// <summary>How a fitting takes the pipe.</summary>
public enum FittingEnds
{
    Butt,
    Socket,
    Threaded,
    Flanged,
}

/// <summary>What a leg is made of.</summary>
/// <param name="Class">Flange class, such as 150.</param>
/// <param name="FittingClass">Class of socket-weld and threaded fittings, such as 3000.</param>
/// <param name="Gasket">Compressed thickness of a gasket, or the stand-off of a ring, mm; null where the drawing gives none.</param>
public sealed record Line(
    NominalSize Size, Schedule Schedule, string Class, string Material, FlangeKind Flange, Facing Facing, FittingEnds Ends, string FittingClass, double? Gasket)
{
    /// <summary>Usual compressed thickness of a spiral-wound gasket, mm (common practice: 1/8 in.).</summary>
    public const double UsualGasket = 3.2;
}

/// <summary>What the line carries; only text that the sheets repeat and figures that checks look at.</summary>
public sealed record Service
{
    public string Fluid { get; init; } = "";
    public string DesignPressure { get; init; } = "";
    public string DesignTemperature { get; init; } = "";
    public string TestPressure { get; init; } = "";
    public string Code { get; init; } = "";
    public string Examination { get; init; } = "";
    public string LineNumber { get; init; } = "";
    public string PipeClass { get; init; } = "";
    public string HeatTreatment { get; init; } = "";
    public string Paint { get; init; } = "";
    public string Insulation { get; init; } = "";

    /// <summary>mm; null where none is given.</summary>
    public double? InsulationThickness { get; init; }

    public string Tracing { get; init; } = "";

    /// <summary>What the pipe is lined with inside, and how thick, in the office's words.</summary>
    public string Lining { get; init; } = "";

    public string Cleanliness { get; init; } = "";

    /// <summary>How the line works, as the office writes it; nothing is checked by it.</summary>
    public string OperatingPressure { get; init; } = "";

    /// <inheritdoc cref="OperatingPressure"/>
    public string OperatingTemperature { get; init; } = "";
    public string Area { get; init; } = "";
    public string TestPackage { get; init; } = "";

    /// <summary>What the office says of the line as a whole, by the file's keys: what is given, in order.</summary>
    public IEnumerable<(string Key, string Says)> LineData(Units units)
    {
        (string, string)[] all =
        [
            ("line number", LineNumber), ("pipe class", PipeClass), ("operating pressure", OperatingPressure), ("operating temperature", OperatingTemperature), ("heat treatment", HeatTreatment), ("paint", Paint),
            ("insulation", InsulationThickness is { } mm ? $"{Insulation} {(units == Units.Inches ? LengthText.FeetInches(mm) : LengthText.Say(units, $"{mm:len} mm"))}".Trim() : Insulation),
            ("tracing", Tracing), ("lining", Lining), ("cleanliness", Cleanliness), ("area", Area), ("test package", TestPackage),
        ];
        return all.Where(x => x.Item2.Length > 0);
    }

    /// <summary>Whether the welds are to be heat-treated: the drawing says how, and not that there is none.</summary>
    public bool IsHeatTreated => HeatTreatment.Length > 0 && !None.Contains(HeatTreatment.Trim(), StringComparer.OrdinalIgnoreCase) && !HeatTreatment.StartsWith("none", StringComparison.OrdinalIgnoreCase) && !HeatTreatment.StartsWith("not ", StringComparison.OrdinalIgnoreCase) && !HeatTreatment.StartsWith("without", StringComparison.OrdinalIgnoreCase);

    /// <summary>Whether the pipe is lined: the drawing says with what, and not that there is none.</summary>
    public bool IsLined => Lining.Length > 0 && !None.Contains(Lining.Trim(), StringComparer.OrdinalIgnoreCase) && !Lining.StartsWith("none", StringComparison.OrdinalIgnoreCase) && !Lining.StartsWith("un", StringComparison.OrdinalIgnoreCase);

    /// <summary>How offices write that there is none.</summary>
    private static readonly string[] None = ["no", "nil", "n/a", "na", "nr", "n.r.", "-", "--", "0"];

    public SourceRow Source { get; init; } = SourceRow.None;
}

/// <summary>A straight run of legs.</summary>
public sealed record Run
{
    public required string Name { get; init; }
    public required RunStart Start { get; init; }
    public required IReadOnlyList<Leg> Legs { get; init; }

    /// <summary>What the run's legs have unless they say otherwise.</summary>
    public required Line Line { get; init; }

    /// <summary>Whether the fluid goes along the run as written; null where the drawing does not say.</summary>
    public bool? FlowsAlong { get; init; }

    /// <summary>It is written out from one row of another run, a drain's or a vent's: it has no rows of its own in the file.</summary>
    public bool IsOfOneRow { get; init; }

    public required SourceRow Source { get; init; }
}

/// <summary>Where a run begins: at an end with its own work point, or at the free end of a tee, outlet or stub-in of another run.</summary>
/// <param name="Ends">What stands there; null where the run starts <paramref name="From"/> another.</param>
/// <param name="At">The stated place of the work point; null for the drawing's origin.</param>
public sealed record RunStart(WorkPoint? Ends, string? From, Point? At, SourceRow Source)
{
    /// <summary>Material-list item of what stands there; null where it is to be found.</summary>
    public int? Item { get; init; }

    /// <summary>Spool of what stands there; null where none is named.</summary>
    public string? Spool { get; init; }
}

public enum WeldPlace
{
    Shop,
    Field,
    FinalFit,
}

/// <summary>One leg: a straight line to the next work point.</summary>
public sealed record Leg
{
    public required int Index { get; init; }

    /// <summary>As written: a unit direction, or a vector with its lengths, mm.</summary>
    public required Vector Go { get; init; }

    /// <summary>Whether <see cref="Go"/> was written as a vector.</summary>
    public bool IsSkew { get; init; }

    /// <summary>Distance, mm; null where it is the vector's own length or is made up fitting to fitting.</summary>
    public double? By { get; init; }

    /// <summary>The next fitting stands directly on the last one.</summary>
    public bool MakeUp { get; init; }

    /// <summary>The elbows at its two ends are one return bend, which turns the line by 180 degrees: the leg is as long as the return is wide, and has no weld.</summary>
    public bool IsReturn { get; init; }

    /// <summary>Rise per unit of level length: <c>fall: 1:100</c> is -0.01; 0 where the leg is not sloped.</summary>
    public double Slope { get; init; }

    public required WorkPoint To { get; init; }

    /// <summary>What the drawing says of the leg in its own words; empty where it says nothing.</summary>
    public string Note { get; init; } = "";
    public WeldPlace? Begin { get; init; }
    public WeldPlace? End { get; init; }

    /// <summary>The office's numbers of the welds at its two ends; empty where it gives none.</summary>
    public string BeginNumber { get; init; } = "";

    public string EndNumber { get; init; } = "";

    /// <summary>Length of the nipple that is this leg's pipe, mm; null where its pipe is cut.</summary>
    public double? Nipple { get; init; }

    public string? Spool { get; init; }
    public int? Item { get; init; }
    public int? PipeItem { get; init; }

    /// <summary>What the leg is made of; its size follows the run unless the leg names one (<see cref="StatesSize"/>).</summary>
    public required Line Line { get; init; }

    /// <summary>Whether the leg itself names the pipe's size (a plain fitting with a <c>size</c>).</summary>
    public NominalSize? StatesSize { get; init; }

    /// <summary>The work point's stated place, to be checked against the route; null where none is stated.</summary>
    public Point? At { get; init; }

    /// <summary>What stands at its end is taken out for the pressure test.</summary>
    public bool IsOutForTest { get; init; }

    public required SourceRow Source { get; init; }

    /// <summary>The leg's straight direction, slope included; length 1.</summary>
    public Vector Direction => Slope == 0 ? Go.Unit : (Go.Unit + (Vector.Up * Slope)).Unit;

    /// <summary>The distance that the drawing states along the direction, mm; null for a leg made up fitting to fitting.</summary>
    public double? Distance => MakeUp ? null : (By ?? Go.Length) * (Slope == 0 ? 1 : Math.Sqrt(1 + (Slope * Slope)));
}
