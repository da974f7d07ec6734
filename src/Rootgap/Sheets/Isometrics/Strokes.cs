namespace Rootgap.Sheets;

/// <summary>Straight strokes on paper: where two cross and how near they come.</summary>
internal static class Strokes
{
    /// <summary>Where two strokes cross, as shares of their lengths; null where they do not, or are parallel.</summary>
    public static (double First, double Second)? Crossing(Spot a, Spot b, Spot c, Spot d)
    {
        var (ux, uy, vx, vy) = (b.X - a.X, b.Y - a.Y, d.X - c.X, d.Y - c.Y);
        var cross = (ux * vy) - (uy * vx);
        if (Math.Abs(cross) < 1e-9)
            return null;
        var (wx, wy) = (c.X - a.X, c.Y - a.Y);
        var s = ((wx * vy) - (wy * vx)) / cross;
        var t = ((wx * uy) - (wy * ux)) / cross;
        return s is >= 0 and <= 1 && t is >= 0 and <= 1 ? (s, t) : null;
    }

    public static double Distance(Spot a, Spot b, Spot c, Spot d) => Crossing(a, b, c, d) is not null
        ? 0
        : Math.Min(Math.Min(Distance(a, c, d), Distance(b, c, d)), Math.Min(Distance(c, a, b), Distance(d, a, b)));

    /// <summary>From a place to a stroke.</summary>
    public static double Distance(Spot p, Spot a, Spot b)
    {
        var (ux, uy) = (b.X - a.X, b.Y - a.Y);
        var square = (ux * ux) + (uy * uy);
        var t = square > 0 ? Math.Clamp((((p.X - a.X) * ux) + ((p.Y - a.Y) * uy)) / square, 0, 1) : 0;
        var (dx, dy) = (p.X - a.X - (t * ux), p.Y - a.Y - (t * uy));
        return Math.Sqrt((dx * dx) + (dy * dy));
    }
}
