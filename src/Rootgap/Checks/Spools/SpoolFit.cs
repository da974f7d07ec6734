using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Routes;
using Rootgap.Standards;

namespace Rootgap.Checks;

/// <summary>A spool as it lies best in the shop's envelope: its sides from long to short, the limits likewise, and the direction of each side.</summary>
internal sealed record SpoolFit(double[] Sides, double[] Limits, Vector[] Axes)
{
    /// <summary>In so many steps a spool is tried from upright to laid over.</summary>
    private const int Steps = 18;

    /// <summary>How far it is to be leaned over about its longest side to fit all the same, radians; null where no leaning helps.</summary>
    public double? Leans { get; init; }

    public double Over(int side) => Sides[side] - Limits[side];

    /// <summary>How the spool lies best; null where it fits as it stands, which is almost always.</summary>
    public static SpoolFit? WhereTooLarge(Route route, Spool spool)
    {
        var shop = route.Drawing.Shop;
        var box = spool.Box;
        // Quick, and without making anything: the sides as they stand against the limits, sorted.
        Span<double> sides = [box.X, box.Y, box.Z];
        Span<double> limits = [shop.EnvelopeLength, shop.EnvelopeWidth, shop.EnvelopeHeight];
        sides.Sort();
        limits.Sort();
        if (sides[0] <= limits[0] + Tolerance.Closing && sides[1] <= limits[1] + Tolerance.Closing && sides[2] <= limits[2] + Tolerance.Closing)
            return null;

        var sorted = new[] { limits[2], limits[1], limits[0] };
        var discs = Discs(spool);
        SpoolFit? best = null;
        double? leans = null;
        foreach (var u in Directions(spool))
        {
            foreach (var v in Directions(spool).Append(u.AnySquare()))
            {
                var square = v.SquareTo(u);
                if (square.Length < 0.1)
                    continue;
                var fit = Along([u, square.Unit, u.Cross(square.Unit)], discs, sorted);
                if (best is null || fit.TooMuch < best.TooMuch)
                    best = fit;
                if (fit.Axes[0].Cross(u).Length < 0.01)
                    leans ??= Leaned(u, square.Unit, discs, sorted);
            }
        }

        return best is { TooMuch: > Tolerance.Closing } ? best with { Leans = leans } : null;
    }

    /// <summary>The row of the leg that reaches farthest along a side.</summary>
    public SourceRow Row(Route route, Spool spool, int side)
    {
        SourceRow? row = null;
        var most = -1.0;
        foreach (var cut in spool.Cuts)
        {
            for (var leg = cut.Pipe.FirstLeg; leg <= cut.Pipe.LastLeg; leg++)
            {
                var reach = route.Runs[cut.Pipe.Run].Distances[leg] * Math.Abs(cut.Pipe.Direction.Dot(Axes[side]));
                if (reach > most)
                    (row, most) = (route.RowOf(cut.Pipe.Run, leg), reach);
            }
        }

        return row ?? (spool.Components.Count > 0 ? spool.Components[0].Source : route.Drawing.Source);
    }

    /// <summary>The least angle about its longest side at which a spool fits: one that is flat and a little too wide lies from corner to corner.</summary>
    private static double? Leaned(Vector along, Vector side, List<(Point At, Vector Face, double Radius)> discs, double[] limits)
    {
        for (var i = 1; i < Steps; i++)
        {
            var angle = i * Math.PI / 2 / Steps;
            var leaned = (side * Math.Cos(angle)) + (along.Cross(side) * Math.Sin(angle));
            if (Along([along, leaned, along.Cross(leaned)], discs, limits).TooMuch <= Tolerance.Closing)
                return angle;
        }

        return null;
    }

    private double TooMuch => Math.Max(0, Over(0)) + Math.Max(0, Over(1)) + Math.Max(0, Over(2));

    private static IEnumerable<Vector> Directions(Spool spool)
    {
        var seen = new List<Vector> { Vector.Up };
        foreach (var cut in spool.Cuts)
        {
            if (!seen.Exists(s => s.Cross(cut.Pipe.Direction).Length < 0.01))
                seen.Add(cut.Pipe.Direction);
        }

        return seen.Take(8);
    }

    private static List<(Point At, Vector Face, double Radius)> Discs(Spool spool)
    {
        var discs = new List<(Point, Vector, double)>();
        foreach (var part in spool.Cuts.Select(c => (Part)c.AsCut).Concat(spool.Components))
            discs.AddRange(part.Bodies.SelectMany(b => b.Discs));
        return discs;
    }

    private static SpoolFit Along(Vector[] axes, List<(Point At, Vector Face, double Radius)> discs, double[] limits)
    {
        var sides = new double[3];
        for (var i = 0; i < 3; i++)
        {
            var (low, high) = (double.PositiveInfinity, double.NegativeInfinity);
            foreach (var (at, face, radius) in discs)
            {
                var middle = (at - Point.Origin).Dot(axes[i]);
                var share = face.Dot(axes[i]);
                var reach = radius * Math.Sqrt(Math.Max(0, 1 - (share * share)));
                (low, high) = (Math.Min(low, middle - reach), Math.Max(high, middle + reach));
            }

            sides[i] = high - low;
        }

        Array.Sort(sides, axes);
        Array.Reverse(sides);
        Array.Reverse(axes);
        return new(sides, limits, axes);
    }
}
