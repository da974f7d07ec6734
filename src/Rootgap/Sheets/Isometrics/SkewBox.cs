using Rootgap.Measure;

namespace Rootgap.Sheets;

/// <summary>The reference planes of a leg that follows no axis (ISO 6412-2): its components along the axes as edges, the planes between them hatched.</summary>
internal sealed class SkewBox
{
    /// <summary>A component smaller than this share of the leg makes no plane that could be seen: it is only written.</summary>
    private const double Slight = 0.06;

    private const double HatchPitch = 1.7;

    private static readonly LineStyle Edge = new(0.25, Dash.Dashed);
    private static readonly LineStyle Hatch = new(0.13);

    private SkewBox(IReadOnlyList<(Spot A, Spot B, double Mm, string Word)> edges, IReadOnlyList<(Spot A, Spot B)> hatch, (Spot, Spot)? diagonal) =>
        (Edges, HatchLines, Diagonal) = (edges, hatch, diagonal);

    /// <summary>The edges along the axes with their true lengths and compass words.</summary>
    public IReadOnlyList<(Spot A, Spot B, double Mm, string Word)> Edges { get; }

    public IReadOnlyList<(Spot A, Spot B)> HatchLines { get; }

    /// <summary>The level diagonal of a leg with three components.</summary>
    public (Spot A, Spot B)? Diagonal { get; }

    /// <summary>The components of a displacement along the axes, with their words; noise left out.</summary>
    public static List<(Vector Part, double Mm, string Word)> Components(Vector v)
    {
        var parts = new List<(Vector, double, string)>();
        foreach (var (axis, mm, plus, minus) in new[] { (Vector.East, v.X, "E", "W"), (Vector.North, v.Y, "N", "S"), (Vector.Up, v.Z, "up", "down") })
        {
            if (Math.Abs(mm) > Math.Max(0.05, 1e-6 * v.Length))
                parts.Add((axis * mm, Math.Abs(mm), mm > 0 ? plus : minus));
        }

        return parts;
    }

    /// <summary>Whether a leg is skew: neither along an axis nor nearly so.</summary>
    public static bool IsNeeded(Vector v) => Components(v).Count(c => c.Mm > Slight * v.Length) > 1;

    /// <summary>The box of a whole leg; of the ways round it the one that hits least of what is drawn; null where none has room.</summary>
    /// <param name="obstruction">What an edge would run over; infinite where there is no paper for it.</param>
    public static SkewBox? Of(LegOnPaper leg, IsometricView view, Func<Spot, Spot, double> obstruction)
    {
        var v = leg.Leg.Direction * leg.Leg.Distance;
        // The sketch's own scale on this leg, so that the box is like the one in the plant.
        var scale = leg.Length / Math.Max(1e-9, default(Spot).To(view.Of(v)));
        var parts = Components(v).Where(c => c.Mm > Slight * v.Length).ToList();
        var level = parts.Where(p => p.Part.Z == 0).ToList();
        var upright = parts.Where(p => p.Part.Z != 0).ToList();
        SkewBox? best = null;
        var least = double.MaxValue;
        foreach (var turned in new[] { false, true })
        {
            foreach (var upFirst in new[] { false, true })
            {
                if (upFirst && upright.Count == 0)
                    continue;
                var flat = turned ? Enumerable.Reverse(level).ToList() : level;
                var box = Build(leg, view, scale, upFirst ? [.. upright, .. flat] : [.. flat, .. upright], upFirst);
                var cost = box.Edges.Sum(e => obstruction(e.A, e.B));
                if (cost < least - 1e-9)
                    (least, best) = (cost, box);
            }
        }

        return best;
    }

    private static SkewBox Build(LegOnPaper leg, IsometricView view, double scale, List<(Vector Part, double Mm, string Word)> parts, bool upFirst)
    {
        var spots = new List<Spot> { leg.On(0) };
        var edges = new List<(Spot, Spot, double, string)>();
        foreach (var (part, mm, word) in parts)
        {
            var on = view.Of(part * scale);
            var next = spots[^1].Moved(on.X, on.Y);
            edges.Add((spots[^1], next, mm, word));
            spots.Add(next);
        }

        var hatch = new List<(Spot, Spot)>();
        (Spot, Spot)? diagonal = null;
        if (parts.Count == 2)
        {
            Fill(hatch, spots[0], spots[1], spots[2]);
        }
        else
        {
            // The level triangle and the upright one stand on the level diagonal.
            diagonal = upFirst ? (spots[1], spots[3]) : (spots[0], spots[2]);
            if (upFirst)
            {
                Fill(hatch, spots[1], spots[2], spots[3]);
                Fill(hatch, spots[3], spots[1], spots[0]);
            }
            else
            {
                Fill(hatch, spots[0], spots[1], spots[2]);
                Fill(hatch, spots[0], spots[2], spots[3]);
            }
        }

        return new(edges, hatch, diagonal);
    }

    /// <summary>Hatches a triangle with strokes parallel to its side from the second to the third corner.</summary>
    private static void Fill(List<(Spot, Spot)> hatch, Spot a, Spot b, Spot c)
    {
        var height = Strokes.Distance(a, b, c.To(b) > 0 ? b.Toward(c, 1e6) : c);
        var count = (int)(Math.Max(height, Math.Min(a.To(b), a.To(c))) / HatchPitch);
        for (var i = 1; i < count; i++)
            hatch.Add((a.Toward(b, (double)i / count), a.Toward(c, (double)i / count)));
    }

    public void Draw(Canvas canvas)
    {
        foreach (var (a, b) in HatchLines)
            canvas.Line(a, b, Hatch);
        foreach (var (a, b, _, _) in Edges)
            canvas.Line(a, b, Edge);
        if (Diagonal is { } d)
            canvas.Line(d.A, d.B, Edge);
    }
}

/// <summary>Places for the figure of an edge: above or below its middle, or nearer to one end.</summary>
internal sealed class AlongEdge(Spot a, Spot b, double turn, double half) : Places
{
    private const double Off = 2.3;

    private static readonly double[] Shares = [0.5, 0.35, 0.65];

    private readonly Spot up = new(Math.Sin(turn), -Math.Cos(turn));

    public override int Count => 2 * Shares.Length;

    public override double Cost(int place) => place < 2 ? 0 : 0.5;

    public override Slab Words(int place)
    {
        var side = place % 2 == 0 ? Off : -Off;
        return new(a.Toward(b, Shares[place / 2]).Moved(up.X * side, up.Y * side), half, 1.3, turn);
    }

    public override int Lines(int place, Span<(Spot A, Spot B)> lines) => 0;

    public override bool AtLeader(int place) => false;
}
