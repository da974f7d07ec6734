namespace Rootgap.Drawings;

/// <summary>How far one error may be: anywhere within a limit either way, or normal with a standard deviation. Millimetres or radians.</summary>
/// <param name="Size">The limit, or the standard deviation; 0 or more.</param>
public readonly record struct Spread(double Size, bool IsNormal = false)
{
    /// <summary>Standard deviation: of an even spread its limit over the root of 3.</summary>
    public double Deviation => IsNormal ? Size : Size / Math.Sqrt(3);
}

/// <summary>The errors of a line before it is built, all about zero and independent; null where the default goes by size or standard. Millimetres and radians.</summary>
/// <remarks>Defaults and their sources: docs/forecast.md. The tables by size are read where the errors are made up, in <c>Site/Forecasting</c>.</remarks>
public sealed record ForecastRules
{
    private const double Degree = Math.PI / 180;

    /// <summary>PFI ES-3: 3/64 in. in a foot; how a pipe is laid along its length.</summary>
    private static readonly Spread Laid = new(0.22 * Degree);

    /// <summary>A nozzle or an existing line stands so far from its place, along each axis. Nobody publishes it: set it.</summary>
    public Spread OtherPosition { get; init; } = new(3);

    public Spread OtherAngle { get; init; } = new(0.3 * Degree);

    /// <summary>At a weld, square to the pipe (ASME B31.3 328.4.3 leaves it to the procedure).</summary>
    public Spread WeldShift { get; init; } = new(1.5);

    public Spread WeldGap { get; init; } = new(0.8);

    public Spread WeldAngle { get; init; } = Laid;

    /// <summary>Set with a level on the free face (common practice).</summary>
    public Spread WeldRoll { get; init; } = Laid;

    /// <summary>Of a butt weld, beside its allowance (common practice).</summary>
    public Spread Shrinkage { get; init; } = new(0.8);

    /// <summary>At a bolted joint; null: half of what the hole is larger than the bolt.</summary>
    public Spread? BoltedShift { get; init; }

    /// <summary>Null: 0.5 mm across the flange.</summary>
    public Spread? BoltedAngle { get; init; }

    /// <summary>Null: what the holes let it, and no more than 0.22 degree, as it is levelled before it is tight.</summary>
    public Spread? BoltedRoll { get; init; }

    /// <summary>Face to face; null: ASME B16.10 by size.</summary>
    public Spread? Valve { get; init; }

    /// <summary>A checked spool, end to end; null: PFI ES-3 by size.</summary>
    public Spread? SpoolPosition { get; init; }

    public Spread SpoolAngle { get; init; } = Laid;

    /// <summary>Cut length of a piece, or the place of a branch along it (common practice).</summary>
    public Spread Cut { get; init; } = new(1);

    /// <summary>Centre to end of an elbow or a tee; null: ASME B16.9 by size.</summary>
    public Spread? Fitting { get; init; }

    public Spread? Reducer { get; init; }

    /// <summary>Length through the hub; null: ASME B16.5 by size.</summary>
    public Spread? Flange { get; init; }

    /// <summary>What a spool that is set with a string or a level keeps (common practice).</summary>
    public Spread Set { get; init; } = new(0.1 * Degree);

    /// <summary>What a support that is set with a level keeps of its height (common practice: shims and a water level to 1 mm).</summary>
    public Spread Height { get; init; } = new(1);

    /// <summary>Supports set to their height, by id or tag: what the way brings up or down to them is <see cref="Height"/>.</summary>
    public IReadOnlyList<string> Supports { get; init; } = [];

    /// <summary>Whether a support is set to its height.</summary>
    public bool IsSet(string id, string tag) => Supports.Contains(id, StringComparer.OrdinalIgnoreCase) || (tag.Length > 0 && Supports.Contains(tag, StringComparer.OrdinalIgnoreCase));

    /// <summary>Spools set in line with a string, a square or a laser: their turn about the upright is <see cref="Set"/>.</summary>
    public IReadOnlyList<string> InLine { get; init; } = [];

    /// <summary>Spools set with a level: their tilt is <see cref="Set"/>.</summary>
    public IReadOnlyList<string> Level { get; init; } = [];
}

/// <summary>How a line may be split into spools, and what each mark costs. Costs are in nominal inches of the weld.</summary>
public sealed record SplitRules
{
    /// <summary>Distance of the places tried on a straight piece, mm.</summary>
    public double Every { get; init; } = 500;

    /// <summary>Final-fit welds have to take up every direction that the pipes on the way have.</summary>
    public bool AllDirections { get; init; }

    /// <summary>Elevation of the floor that people stand on, mm.</summary>
    public double Floor { get; init; }

    public double Field { get; init; } = 1;

    public double FinalFit { get; init; } = 1.6;

    /// <summary>More for a place where no weld is drawn: one weld more.</summary>
    public double NewPlace { get; init; } = 0.5;

    /// <summary>More for a pipe over 5 degrees off level.</summary>
    public double OffLevel { get; init; } = 0.3;

    /// <summary>More within one diameter of a fitting.</summary>
    public double NearFitting { get; init; } = 0.3;

    /// <summary>More at over 2 m above the floor.</summary>
    public double High { get; init; } = 0.2;

    /// <summary>For a spool whose pipes have three independent directions, in inches of its largest size.</summary>
    public double ThreeDirections { get; init; } = 0.5;
}
