namespace Rootgap.Sheets;

/// <summary>Convex polygons on paper: whether they hold, meet or are crossed.</summary>
internal static class Convex
{
    public static double Cross(Spot a, Spot b, Spot c) => ((b.X - a.X) * (c.Y - a.Y)) - ((b.Y - a.Y) * (c.X - a.X));

    /// <summary>The room of words: a rectangle round a centre, turned.</summary>
    public static Spot[] Slab(Spot centre, double width, double height, double turn)
    {
        var (a, b) = (turn, turn + (Math.PI / 2));
        var (w, h) = (width / 2, height / 2);
        return [centre.Polar(-w, a).Polar(-h, b), centre.Polar(w, a).Polar(-h, b), centre.Polar(w, a).Polar(h, b), centre.Polar(-w, a).Polar(h, b)];
    }

    public static bool Holds(ReadOnlySpan<Spot> polygon, Spot spot)
    {
        if (polygon.Length < 3)
            return false;
        var (left, right) = (false, false);
        for (var i = 0; i < polygon.Length; i++)
        {
            var cross = Cross(polygon[i], polygon[(i + 1) % polygon.Length], spot);
            left |= cross > 1e-9;
            right |= cross < -1e-9;
        }

        return !(left && right);
    }

    /// <summary>Whether two share some area (separating axes).</summary>
    public static bool Meet(ReadOnlySpan<Spot> a, ReadOnlySpan<Spot> b) => !Parted(a, b) && !Parted(b, a);

    public static bool Crossed(ReadOnlySpan<Spot> polygon, Spot from, Spot to)
    {
        ReadOnlySpan<Spot> line = [from, to];
        return Meet(polygon, line);
    }

    /// <summary>Whether two lines cross inside both.</summary>
    public static bool LinesCross(Spot a, Spot b, Spot c, Spot d) =>
        Cross(a, b, c) * Cross(a, b, d) < -1e-9 && Cross(c, d, a) * Cross(c, d, b) < -1e-9;

    private static bool Parted(ReadOnlySpan<Spot> a, ReadOnlySpan<Spot> b)
    {
        for (var i = 0; i < a.Length; i++)
        {
            var (p, q) = (a[i], a[(i + 1) % a.Length]);
            var (nx, ny) = (q.Y - p.Y, p.X - q.X);
            if ((nx * nx) + (ny * ny) < 1e-18)
                continue;
            var (lowA, highA) = Reach(a, nx, ny);
            var (lowB, highB) = Reach(b, nx, ny);
            if (highA <= lowB + 1e-9 || highB <= lowA + 1e-9)
                return true;
        }

        return false;
    }

    private static (double Low, double High) Reach(ReadOnlySpan<Spot> polygon, double nx, double ny)
    {
        var (low, high) = (double.MaxValue, double.MinValue);
        foreach (var s in polygon)
        {
            var d = (s.X * nx) + (s.Y * ny);
            low = Math.Min(low, d);
            high = Math.Max(high, d);
        }

        return (low, high);
    }
}
