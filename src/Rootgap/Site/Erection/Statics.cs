using Rootgap.Measure;

namespace Rootgap.Site.Erection;

/// <summary>Weights on their supports, as a fitter needs them. Masses kg, places mm, angles radians.</summary>
public static class Statics
{
    /// <summary>Centre of mass of several masses; the origin where there is none.</summary>
    public static (double Mass, Point Centre) Together(IEnumerable<(double Mass, Point At)> masses)
    {
        var (mass, moment) = (0.0, Vector.Zero);
        foreach (var (kg, at) in masses)
        {
            mass += kg;
            moment += (at - Point.Origin) * kg;
        }

        return (mass, mass > 0 ? Point.Origin + (moment / mass) : Point.Origin);
    }

    /// <summary>What each of two supports bears of a mass between them (or beyond: then one of them is pulled up, and less than nothing), by moments about the other.</summary>
    public static (double First, double Second) OnTwo(double mass, Point centre, Point first, Point second)
    {
        var along = (second - first) with { Z = 0 };
        var length = along.Length;
        if (length < Tolerance.Closing)
            return (mass, 0);
        var share = (centre - first).Dot(along) / (length * length);
        return (mass * (1 - share), mass * share);
    }

    /// <summary>
    /// What each of several supports bears of a mass that lies stiff on them, each giving alike under its load: two by their lever arms, three by the moments about each other's lines,
    /// more as a stiff plate on springs. One from which the mass would lift bears nothing, and the others are reckoned anew.
    /// </summary>
    /// <returns>In the places' order, together the mass; all on the nearest where the places bear it on none of them.</returns>
    public static double[] OnSeveral(double mass, Point centre, IReadOnlyList<Point> places)
    {
        var loads = new double[places.Count];
        List<int> bearing = [.. Enumerable.Range(0, places.Count)];
        while (bearing.Count > 0)
        {
            var shares = Springs(bearing.ConvertAll(i => (places[i].X - centre.X, places[i].Y - centre.Y)));
            var lifts = bearing.Where((_, k) => shares[k] < -1e-9).ToList();
            if (lifts.Count == 0)
            {
                for (var k = 0; k < bearing.Count; k++)
                    loads[bearing[k]] = mass * Math.Max(0, shares[k]);
                break;
            }

            bearing.RemoveAll(lifts.Contains);
        }

        return loads;
    }

    /// <summary>Shares of a stiff plate's load on equal springs, by the places' distances from the load: f = a + b x + c y with their sum one and both moments nothing; along a line, or at one place, what moments there are.</summary>
    private static double[] Springs(List<(double X, double Y)> at)
    {
        // Gauss on the three by three of sums; a direction in which the places do not differ has no equation.
        var m = new double[3, 4];
        foreach (var (x, y) in at)
        {
            double[] row = [1, x, y];
            for (var i = 0; i < 3; i++)
            {
                for (var k = 0; k < 3; k++)
                    m[i, k] += row[i] * row[k];
            }
        }

        m[0, 3] = 1;
        var size = m[1, 1] + m[2, 2] + 1;
        var free = new bool[3];
        // The moments first, by the larger spread: on a line across both axes one of the two is the other's multiple.
        int[] order = m[1, 1] >= m[2, 2] ? [0, 1, 2] : [0, 2, 1];
        foreach (var p in order)
        {
            if (Math.Abs(m[p, p]) < 1e-9 * size)
            {
                free[p] = true;
                continue;
            }

            for (var i = 0; i < 3; i++)
            {
                if (i == p || free[i])
                    continue;
                var factor = m[i, p] / m[p, p];
                for (var k = 0; k < 4; k++)
                    m[i, k] -= factor * m[p, k];
            }
        }

        double Value(int i) => free[i] ? 0 : m[i, 3] / m[i, i];
        var (a, b, c) = (Value(0), Value(1), Value(2));
        return [.. at.Select(p => a + (b * p.X) + (c * p.Y))];
    }

    /// <summary>
    /// Whether the upright line through a centre of mass falls between supports: inside the hull of their places, or within <paramref name="slack"/> mm of it.
    /// </summary>
    public static bool IsSteady(Point centre, IReadOnlyList<Point> supports, double slack = 0) => supports.Count > 0 && Outside(centre, supports) <= slack;

    /// <summary>How far the upright line through a centre falls outside the hull of the supports, mm; 0 inside.</summary>
    public static double Outside(Point centre, IReadOnlyList<Point> supports)
    {
        var hull = Hull([.. supports.Select(p => (p.X, p.Y))]);
        if (hull.Count == 1)
            return Distance((centre.X, centre.Y), hull[0], hull[0]);
        var inside = hull.Count > 2;
        var nearest = double.PositiveInfinity;
        for (var i = 0; i < hull.Count; i++)
        {
            var (a, b) = (hull[i], hull[(i + 1) % hull.Count]);
            inside &= Cross(a, b, (centre.X, centre.Y)) >= 0;
            nearest = Math.Min(nearest, Distance((centre.X, centre.Y), a, b));
        }

        return inside ? 0 : nearest;
    }

    private static double Cross((double X, double Y) a, (double X, double Y) b, (double X, double Y) c) => ((b.X - a.X) * (c.Y - a.Y)) - ((b.Y - a.Y) * (c.X - a.X));

    private static double Distance((double X, double Y) p, (double X, double Y) a, (double X, double Y) b)
    {
        var (dx, dy) = (b.X - a.X, b.Y - a.Y);
        var length = (dx * dx) + (dy * dy);
        var t = length > 0 ? Math.Clamp((((p.X - a.X) * dx) + ((p.Y - a.Y) * dy)) / length, 0, 1) : 0;
        return Math.Sqrt(Math.Pow(p.X - a.X - (t * dx), 2) + Math.Pow(p.Y - a.Y - (t * dy), 2));
    }

    /// <summary>Counter-clockwise hull (Andrew's monotone chain); two places for a line, one for a place.</summary>
    private static List<(double X, double Y)> Hull(List<(double X, double Y)> places)
    {
        places = [.. places.Distinct().Order()];
        if (places.Count < 3)
            return places;
        var hull = new List<(double X, double Y)>();
        foreach (var pass in (IEnumerable<(double X, double Y)>[])[places, Enumerable.Reverse(places)])
        {
            var from = hull.Count;
            foreach (var p in pass)
            {
                while (hull.Count >= from + 2 && Cross(hull[^2], hull[^1], p) <= 1e-9)
                    hull.RemoveAt(hull.Count - 1);
                hull.Add(p);
            }

            hull.RemoveAt(hull.Count - 1);
        }

        return hull;
    }
}
