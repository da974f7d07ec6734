using Rootgap.Measure;
using Rootgap.Standards;

namespace Rootgap.Sums;

/// <summary>A part of a weld's cross-section.</summary>
/// <param name="Area">mm².</param>
/// <param name="Up">Height of its centroid over the inside of the wall, mm; of a fillet, over the outside of the pipe.</param>
public readonly record struct WeldArea(string Name, double Area, double Up, string How);

/// <summary>The shape of a butt weld before it is welded.</summary>
/// <param name="Wall">mm.</param>
/// <param name="Gap">Root gap, mm.</param>
/// <param name="Land">mm.</param>
/// <param name="Bevel">Of each side, radians from square.</param>
public sealed record Groove(double Wall, double Gap, double Land, double Bevel)
{
    /// <summary>Height over the inside from which a compound bevel goes on steeper, mm; null where it does not.</summary>
    public double? SteeperFrom { get; init; }

    /// <summary>Of the upper part of a compound bevel, radians.</summary>
    public double UpperBevel { get; init; }

    /// <summary>Sides that are bevelled: 2, or 1 where one of them is square.</summary>
    public int Sides { get; init; } = 2;

    /// <summary>Where ASME B16.25 has the bevel steepen, mm over the inside (figure 3; from memory).</summary>
    private const double Knee = 19;

    /// <summary>As ASME B16.25 prepares a wall: square to 3 mm, 37.5 degrees to 22 mm, compound above (from memory).</summary>
    public static Groove Usual(double wall, double gap)
    {
        static double Of(Dimension dimension) => dimension.Of(default)!.Figure;
        if (wall <= Of(PipeEnds.SquareUpTo))
            return new(wall, gap, wall, 0);
        var land = Of(PipeEnds.Land);
        var bevel = Angles.ToRadians(Of(PipeEnds.Bevel));
        return wall > Of(PipeEnds.CompoundOver)
            ? new(wall, gap, land, bevel) { SteeperFrom = Knee, UpperBevel = Angles.ToRadians(Of(PipeEnds.UpperBevel)) }
            : new(wall, gap, land, bevel);
    }
}

/// <summary>How much metal a weld takes: each part of its section by the line that its own centroid runs, a circle or, where a branch is set on, the saddle.</summary>
public sealed record WeldMetal
{
    /// <summary>Height of the cap over the pipe, mm: a planning figure within B31.3 table 341.3.2.</summary>
    public const double UsualCap = 1.5;

    /// <summary>How much wider than the groove the cap is, both sides together, mm.</summary>
    public const double CapOverlap = 3;

    /// <summary>Height of the root inside the bore, mm: a planning figure.</summary>
    public const double UsualRoot = 1;

    /// <summary>How much wider than the gap the root is, both sides together, mm.</summary>
    public const double RootOverlap = 2;

    private const string Elements = "filler-metal makers' handbooks: elements of a section";

    /// <summary>A socket's fillet against the wall of its pipe (B31.3 figure 328.5.2C; from memory).</summary>
    public const double SocketShare = 1.09;

    private const double LeastSocketLeg = 3.2;

    /// <summary>The outer fillet of a slip-on flange against the wall, and its inner one at most, mm (B31.3 figure 328.5.2B; from memory).</summary>
    private const double SlipOnShare = 1.4;

    private const double MostInnerLeg = 6;

    /// <summary>The fillet over a branch's weld: its throat against the wall, and at most, mm (B31.3 328.5.4; from memory).</summary>
    private const double CoverShare = 0.7;

    private const double MostCover = 6;

    /// <summary>Of the end of a branch that is set on, from square, radians (common practice).</summary>
    private static readonly double BranchBevel = Angles.ToRadians(45);

    public required IReadOnlyList<WeldArea> Areas { get; init; }

    /// <summary>Radius from which <see cref="WeldArea.Up"/> counts, mm; null for a straight seam.</summary>
    public double? Radius { get; init; }

    /// <summary>How long the line is that a radius runs, mm.</summary>
    private Func<double, double> Round { get; init; } = r => 2 * Math.PI * r;

    /// <summary>Density of the metal, kg/mm³.</summary>
    public double Density { get; init; } = Pipes.CarbonSteel;

    public required string Source { get; init; }

    /// <summary>All of the section, mm².</summary>
    public double Area => Areas.Sum(a => a.Area);

    /// <summary>Once round, mm³; null for a straight seam.</summary>
    public double? Volume => Radius is { } r ? Areas.Sum(a => a.Area * Round(r + a.Up)) : null;

    /// <summary>Once round, kg; null for a straight seam.</summary>
    public double? Mass => Volume * Density;

    /// <summary>Of a straight seam, kg/mm.</summary>
    public double PerLength => Area * Density;

    /// <summary>A butt weld.</summary>
    /// <param name="inside">Radius of the bore, mm; null for a straight seam.</param>
    /// <param name="cap">Height of the cap, mm; 0 for none.</param>
    /// <param name="root">Height of the root inside, mm; 0 for none.</param>
    /// <param name="overlap">How much wider than the groove the cap is, both sides together, mm.</param>
    public static WeldMetal Butt(Groove groove, double? inside, double cap = UsualCap, double root = UsualRoot, double overlap = CapOverlap)
    {
        var (t, g, f) = (groove.Wall, groove.Gap, Math.Min(groove.Land, groove.Wall));
        var knee = groove.SteeperFrom is { } k && k > f && k < t ? k : t;
        var half = (knee - f) * Math.Tan(groove.Bevel);
        var upper = (t - knee) * Math.Tan(groove.UpperBevel);
        var sides = groove.Sides;
        List<WeldArea> areas = [new("between the lands and up", g * t, t / 2, "gap × wall")];
        if (half > 0)
            areas.Add(new("bevels", sides * (knee - f) * half / 2, f + ((knee - f) * 2 / 3), sides == 2 ? $"({(knee < t ? "knee" : "wall")} − land)² × tan bevel" : "(wall − land)² × tan bevel / 2"));
        if (knee < t)
        {
            areas.Add(new("over the knee, straight part", sides * half * (t - knee), (t + knee) / 2, "2 × (knee − land) × tan bevel × (wall − knee)"));
            areas.Add(new("over the knee, steep part", sides * (t - knee) * upper / 2, knee + ((t - knee) * 2 / 3), "(wall − knee)² × tan upper bevel"));
        }

        if (cap > 0)
            areas.Add(new("cap", 2.0 / 3 * (g + (sides * (half + upper)) + overlap) * cap, t + (0.4 * cap), FormattableString.Invariant($"2/3 × (width at the top{(overlap > 0 ? $" + {overlap:0.##} mm" : "")}) × cap")));
        if (root > 0)
            areas.Add(new("root inside", 2.0 / 3 * (g + RootOverlap) * root, -0.4 * root, "2/3 × (gap + 2 mm) × root"));
        return new() { Areas = areas, Radius = inside, Source = Elements };
    }

    /// <summary>A fillet with equal legs.</summary>
    /// <param name="outside">Radius of the pipe on which it stands, mm; null for a straight seam.</param>
    public static WeldMetal Fillet(double leg, double? outside) =>
        new() { Areas = [new("fillet", leg * leg / 2, leg / 3, "leg² / 2")], Radius = outside, Source = "a triangle with equal legs; no convexity" };

    /// <summary>The fillet of a socket.</summary>
    public static WeldMetal Socket(double wall, double outside) =>
        Fillet(Math.Max(LeastSocketLeg, SocketShare * wall), outside) with { Source = "leg 1.09 × wall, at least 3.2 mm: B31.3 figure 328.5.2C, from memory" };

    /// <summary>The weld of a branch set on its header: one bevel through the wall, a fillet over it, along the true saddle.</summary>
    /// <param name="inside">Radius of the branch's bore, mm.</param>
    /// <param name="header">Outside radius of the header, mm.</param>
    /// <param name="lean">Angle between the two axes, radians.</param>
    public static WeldMetal SetOn(double wall, double gap, double inside, double header, double lean)
    {
        var land = Math.Min(PipeEnds.Land.Of(default)!.Figure, wall);
        var leg = Math.Min(CoverShare * wall, MostCover) * Math.Sqrt(2);
        List<WeldArea> areas = [new("gap through the wall", gap * wall, wall / 2, "gap × wall"), new("cover fillet", leg * leg / 2, wall + (leg / 3), "throat², throat 0.7 × wall, at most 6 mm")];
        if (wall > land)
            areas.Insert(1, new("bevel", (wall - land) * (wall - land) * Math.Tan(BranchBevel) / 2, land + ((wall - land) * 2 / 3), "(wall − land)² × tan bevel / 2"));
        return new()
        {
            Areas = areas,
            Radius = inside,
            Round = r => Saddle(r, header, lean),
            Source = "one bevel of 45° (common practice), cover fillet with a throat of 0.7 × wall, at most 6 mm (B31.3 328.5.4, from memory), along the true saddle",
        };
    }

    /// <summary>How long the line is in which a cylinder meets another one, mm.</summary>
    /// <param name="radius">Of the branch, mm; what is wider than the header is taken as wide as it.</param>
    /// <param name="header">Radius of the header, mm.</param>
    /// <param name="lean">Angle between the axes, radians.</param>
    public static double Saddle(double radius, double header, double lean)
    {
        const int Chords = 1440;
        var r = Math.Min(radius, header);
        var length = 0.0;
        var last = At(0);
        for (var i = 1; i <= Chords; i++)
        {
            var next = At(2 * Math.PI * i / Chords);
            length += last.To(next);
            last = next;
        }

        return length;

        // Axes: x along the header, y across both, z up; the branch leans towards x.
        Point At(double turn)
        {
            var (across, inPlane) = (r * Math.Sin(turn), r * Math.Cos(turn));
            var z = Math.Sqrt(Math.Max(0, (header * header) - (across * across)));
            var along = (z + (inPlane * Math.Cos(lean))) / Math.Sin(lean);
            return new((along * Math.Cos(lean)) + (inPlane * Math.Sin(lean)), across, z);
        }
    }

    /// <summary>The two fillets of a slip-on flange.</summary>
    public static WeldMetal SlipOn(double wall, double outside)
    {
        var (outer, inner) = (SlipOnShare * wall, Math.Min(wall, MostInnerLeg));
        return new()
        {
            Areas = [new("fillet at the hub", outer * outer / 2, outer / 3, "(1.4 × wall)² / 2"), new("fillet inside", inner * inner / 2, -inner / 3, "wall² / 2, at most 6 mm")],
            Radius = outside,
            Source = "legs 1.4 × wall and wall: B31.3 figure 328.5.2B, from memory",
        };
    }

    /// <summary>The figures with their sums.</summary>
    public IEnumerable<Sum> Sums()
    {
        foreach (var area in Areas)
            yield return new($"area, {area.Name}", area.Area, Quantity.Area, area.How, Source);
        yield return new("area", Area, Quantity.Area, "all of them", Source);
        if (Radius is { } r)
        {
            foreach (var area in Areas)
                yield return new($"round, {area.Name}", 2 * Math.PI * (r + area.Up), Quantity.Length, "2 × pi × radius of its centroid", "geometry");
            yield return new("volume", Volume!.Value, Quantity.MetalVolume, "each area × its own round", "geometry (Pappus)");
            yield return new("mass of weld metal", Mass!.Value, Quantity.Mass, "volume × density", Densities);
        }
        else
        {
            yield return new("mass of weld metal", PerLength, Quantity.MassPerLength, "area × density", Densities);
        }
    }

    private string Densities => Density == Pipes.CarbonSteel ? "7850 kg/m³: ASME B36.10M" : "density as given";
}
