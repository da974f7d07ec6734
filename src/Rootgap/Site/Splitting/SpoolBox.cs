using Rootgap.Measure;

namespace Rootgap.Site.Splitting;

/// <summary>The ways in which a spool may be boxed: one side along a face's normal or a pipe, a second along the part of another one that is square to it.</summary>
internal sealed class BoxFrames
{
    private readonly List<(Vector U, Vector V, Vector W)> frames = [];
    private readonly List<(int First, int Second, int Frame)> made = [];

    public BoxFrames(IReadOnlyList<Vector> directions)
    {
        for (var i = 0; i < directions.Count; i++)
        {
            for (var j = 0; j < directions.Count; j++)
            {
                if (i == j)
                    continue;
                var v = directions[j].SquareTo(directions[i]);
                if (v.Length > 1e-6)
                    made.Add((i, j, FrameOf(directions[i], v.Unit)));
            }
        }

        Turned = frames.Count;
        // A spool with one direction only may be turned about it as one likes: sixteen turns in a quarter, after which the box repeats.
        foreach (var direction in directions)
        {
            var side = direction.AnySquare();
            for (var k = 0; k < 16; k++)
            {
                var v = side.Turned(direction, Math.PI / 2 * k / 16);
                frames.Add((direction, v, direction.Cross(v)));
            }
        }
    }

    /// <summary>Number of the first frame of those for one direction alone; sixteen each.</summary>
    public int Turned { get; }

    public int Count => frames.Count;

    /// <summary>The frames that the directions of a spool allow.</summary>
    public IEnumerable<int> Of(IReadOnlySet<int> directions)
    {
        if (directions.Count == 1)
            return Enumerable.Range(Turned + (16 * directions.First()), 16);
        return made.Where(m => directions.Contains(m.First) && directions.Contains(m.Second)).Select(m => m.Frame).Distinct();
    }

    private int FrameOf(Vector u, Vector v)
    {
        var w = u.Cross(v);
        // The same three axes in another order make the same box.
        var at = frames.FindIndex(f => IsAmong(u, f) && IsAmong(v, f));
        if (at >= 0)
            return at;
        frames.Add((u, v, w));
        return frames.Count - 1;

        static bool IsAmong(Vector d, (Vector U, Vector V, Vector W) f) => Math.Abs(d.Dot(f.U)) > 1 - 1e-12 || Math.Abs(d.Dot(f.V)) > 1 - 1e-12 || Math.Abs(d.Dot(f.W)) > 1 - 1e-12;
    }

    /// <summary>Widens low and high along a frame's three axes by a disc.</summary>
    public void Widen(int frame, Span<double> six, Point at, Vector axis, double radius)
    {
        var (u, v, w) = frames[frame];
        One(six[..2], u);
        One(six.Slice(2, 2), v);
        One(six.Slice(4, 2), w);

        void One(Span<double> lowHigh, Vector d)
        {
            var middle = (at - Point.Origin).Dot(d);
            var share = axis.Dot(d);
            var reach = radius * Math.Sqrt(Math.Max(0, 1 - (share * share)));
            lowHigh[0] = Math.Min(lowHigh[0], middle - reach);
            lowHigh[1] = Math.Max(lowHigh[1], middle + reach);
        }
    }
}

/// <summary>A spool being put together: how large it is in every frame, and what it weighs. Growing gives a new one.</summary>
internal sealed class SpoolSize
{
    private readonly BoxFrames frames;
    private readonly double[] lowHigh;

    public SpoolSize(BoxFrames frames)
    {
        this.frames = frames;
        lowHigh = new double[frames.Count * 6];
        for (var i = 0; i < lowHigh.Length; i++)
            lowHigh[i] = i % 2 == 0 ? double.PositiveInfinity : double.NegativeInfinity;
    }

    private SpoolSize(SpoolSize other)
    {
        (frames, lowHigh, Mass) = (other.frames, [.. other.lowHigh], other.Mass);
        Directions = [.. other.Directions];
    }

    public double Mass { get; private set; }

    public HashSet<int> Directions { get; } = [];

    /// <summary>With a part more, and the whole pipe at the place where it hangs on.</summary>
    public SpoolSize With(SplitNode node, SplitEdge? whole = null)
    {
        var grown = new SpoolSize(this) { Mass = Mass + node.Mass + (whole?.WholeMass ?? 0) };
        foreach (var (at, axis, radius) in node.Discs)
            grown.Widen(at, axis, radius);
        grown.Directions.UnionWith(node.Directions);
        return grown;
    }

    /// <summary>With the extra of a final-fit weld on its pipe.</summary>
    public SpoolSize WithExtra(SplitEdge edge, double extra)
    {
        var grown = new SpoolSize(this) { Mass = Mass + edge.ExtraMass };
        grown.Widen(edge.ExtraFrom + (edge.ExtraWay * extra), edge.ExtraWay, edge.Radius);
        return grown;
    }

    /// <summary>Of all nodes of a group with the pipe whole between them.</summary>
    public static SpoolSize Of(BoxFrames frames, IReadOnlyCollection<SplitNode> group, Func<SplitEdge, bool> isCut)
    {
        var size = group.Aggregate(new SpoolSize(frames), (s, n) => s.With(n));
        size.Mass += group.SelectMany(n => n.Edges).Distinct().Where(e => !isCut(e) && group.Contains(e.A) && group.Contains(e.B)).Sum(e => e.WholeMass);
        return size;
    }

    private void Widen(Point at, Vector axis, double radius)
    {
        for (var f = 0; f < frames.Count; f++)
            frames.Widen(f, lowHigh.AsSpan(6 * f, 6), at, axis, radius);
    }

    /// <summary>Sides in order of size, mm, of the best of its boxes for the limits, and whether it is within them.</summary>
    public (double[] Box, bool Fits) Best(double[] limits, double massLimit)
    {
        double[]? best = null;
        var over = double.PositiveInfinity;
        foreach (var f in frames.Of(Directions))
        {
            var sides = Sides(f);
            var worst = Enumerable.Range(0, 3).Max(k => sides[k] - limits[k]);
            if (worst < over)
                (best, over) = (sides, worst);
        }

        return (best ?? [0, 0, 0], over <= Tolerance.Noise && Mass <= massLimit + Tolerance.Noise);
    }

    /// <summary>Whether nothing that is added can make it fit: too heavy already, or too large in every frame that the drawing has.</summary>
    public bool IsHopeless(double[] limits, double massLimit)
    {
        if (Mass > massLimit + Tolerance.Noise)
            return true;
        for (var f = 0; f < frames.Count; f++)
        {
            var sides = Sides(f);
            if (sides[0] <= limits[0] + Tolerance.Noise && sides[1] <= limits[1] + Tolerance.Noise && sides[2] <= limits[2] + Tolerance.Noise)
                return false;
        }

        return true;
    }

    private double[] Sides(int f)
    {
        var six = lowHigh.AsSpan(6 * f, 6);
        double[] sides = [six[1] - six[0], six[3] - six[2], six[5] - six[4]];
        Array.Sort(sides);
        return sides;
    }
}
