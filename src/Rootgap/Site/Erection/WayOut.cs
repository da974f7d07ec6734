using Rootgap.Measure;

namespace Rootgap.Site.Erection;

/// <summary>Whether a body can be brought to its place past what stands already: moved straight out of it along the six directions and along its joints' axes, boxes against boxes.</summary>
internal sealed class WayOut
{
    /// <summary>Boxes are so much smaller all round: faces meet at their gaskets, and a root gap is no wall, mm.</summary>
    private const double Skin = 8;

    /// <summary>Long bodies are boxed in stretches, so that a slanting pipe's box is not a house, mm.</summary>
    private const double Stretch = 400;

    private readonly List<Boxed> boxes;

    private readonly record struct Boxed(Point Low, Point High)
    {
        public bool Meets(in Boxed o) => Low.X < o.High.X && High.X > o.Low.X && Low.Y < o.High.Y && High.Y > o.Low.Y && Low.Z < o.High.Z && High.Z > o.Low.Z;

        /// <summary>Whether it runs into another box when it moves off along a direction, however far: on each axis the two overlap for one stretch of the way.</summary>
        public bool RunsInto(in Boxed o, Vector d)
        {
            var (from, to) = (0.0, double.PositiveInfinity);
            return Cut(d.X, o.Low.X - High.X, o.High.X - Low.X, ref from, ref to) && Cut(d.Y, o.Low.Y - High.Y, o.High.Y - Low.Y, ref from, ref to) && Cut(d.Z, o.Low.Z - High.Z, o.High.Z - Low.Z, ref from, ref to);

            static bool Cut(double speed, double low, double high, ref double from, ref double to)
            {
                if (Math.Abs(speed) < 1e-9)
                    return low < 0 && high > 0;
                var (a, b) = (low / speed, high / speed);
                from = Math.Max(from, Math.Min(a, b));
                to = Math.Min(to, Math.Max(a, b));
                return from < to;
            }
        }
    }

    public WayOut(ErectedBody body) => boxes = [.. body.Solids.SelectMany(s => s.Stretches).SelectMany(BoxesOf)];

    private static IEnumerable<Boxed> BoxesOf((Point From, Point To, double Radius) s)
    {
        var n = Math.Max(1, (int)Math.Ceiling(s.From.To(s.To) / Stretch));
        var axis = (s.To - s.From).Unit;
        double Reach(double share) => Math.Max(1, (s.Radius * Math.Sqrt(Math.Max(0, 1 - (share * share)))) - Skin);
        var reach = new Vector(Reach(axis.X), Reach(axis.Y), Reach(axis.Z));
        for (var i = 0; i < n; i++)
        {
            var (a, b) = (s.From.Toward(s.To, (double)i / n), s.From.Toward(s.To, (i + 1.0) / n));
            yield return new(new(Math.Min(a.X, b.X) - reach.X, Math.Min(a.Y, b.Y) - reach.Y, Math.Min(a.Z, b.Z) - reach.Z), new(Math.Max(a.X, b.X) + reach.X, Math.Max(a.Y, b.Y) + reach.Y, Math.Max(a.Z, b.Z) + reach.Z));
        }
    }

    /// <summary>The first direction along which it comes free of all that stands; null where it is closed in.</summary>
    public Vector? Free(IReadOnlyList<WayOut> standing, IEnumerable<Vector> directions)
    {
        foreach (var direction in directions)
        {
            if (standing.All(s => IsFree(s, direction)))
                return direction;
        }

        return null;
    }

    /// <summary>The bodies that are in the way in every direction tried.</summary>
    public IEnumerable<int> InTheWay(IReadOnlyList<WayOut> standing, IReadOnlyList<Vector> directions)
    {
        for (var i = 0; i < standing.Count; i++)
        {
            if (directions.Any(d => !IsFree(standing[i], d)))
                yield return i;
        }
    }

    private bool IsFree(WayOut other, Vector direction)
    {
        foreach (var mine in boxes)
        {
            foreach (var its in other.boxes)
            {
                // What touches where both stand is a joint: it may be drawn apart along it, and lifted off it.
                if (!mine.Meets(its) && mine.RunsInto(its, direction))
                    return false;
            }
        }

        return true;
    }
}
