using MathNet.Numerics.LinearAlgebra;
using Rootgap.Measure;

namespace Rootgap.Site.Surveys;

/// <summary>Where a survey's own frame may lie before it is adjusted: from the points as drawn and as read (Kabsch 1976), or from all sides where too few are whole.</summary>
internal static class FrameStart
{
    /// <summary>Frames to begin from, plant coordinates to those read; the adjustment takes the one that fits best.</summary>
    public static IEnumerable<Motion> Of(Survey survey, Standing drawn)
    {
        if (survey.Frame == SurveyFrame.Plant)
            return [Motion.None];
        var points = survey.Readings.Where(r => r.Reading is SiteReading.Coordinate).GroupBy(r => r.Entry)
            .Select(g => (
                At: drawn.At(((SiteReading.Coordinate)g.First().Reading).Touch),
                Read: g.GroupBy(r => ((SiteReading.Coordinate)r.Reading).Along).ToDictionary(r => r.Key, r => r.First().Value)))
            .ToList();
        var isLevelled = survey.Frame == SurveyFrame.Levelled;
        var whole = points.Where(p => p.Read.ContainsKey(Along.East) && p.Read.ContainsKey(Along.North) && (isLevelled || p.Read.ContainsKey(Along.Up)))
            .Select(p => (p.At, Read: new Point(p.Read[Along.East], p.Read[Along.North], p.Read.GetValueOrDefault(Along.Up)))).ToList();
        var turns = isLevelled ? Levelled(whole) : Free(whole);
        return turns.Select(turn => Shifted(turn, points));
    }

    private static IEnumerable<Motion> Levelled(List<(Point At, Point Read)> whole)
    {
        if (whole.Count < 2)
            return Enumerable.Range(0, 8).Select(i => Turned(new(0, 0, i * Math.PI / 4)));
        var (a, b) = Middles(whole);
        var (dot, cross) = (0.0, 0.0);
        foreach (var (at, read) in whole)
        {
            var (p, q) = (at - a, read - b);
            dot += (p.X * q.X) + (p.Y * q.Y);
            cross += (p.X * q.Y) - (p.Y * q.X);
        }

        return [Turned(new(0, 0, Math.Atan2(cross, dot)))];
    }

    private static IEnumerable<Motion> Free(List<(Point At, Point Read)> whole)
    {
        if (whole.Count < 3)
            return Quarters();
        var (a, b) = Middles(whole);
        var h = Matrix<double>.Build.Dense(3, 3);
        foreach (var (at, read) in whole)
        {
            var (p, q) = (at - a, read - b);
            h += Column(q).OuterProduct(Column(p));
        }

        var svd = h.Svd();
        // Two singular values must be there: points on one line leave the turn about it open.
        if (svd.S[1] < 1e-6 * svd.S[0])
            return Quarters();
        var mirror = Matrix<double>.Build.DenseIdentity(3);
        mirror[2, 2] = Math.Sign((svd.U * svd.VT).Determinant());
        var q3 = svd.U * mirror * svd.VT;
        return [Turned(TurnOf(q3))];
    }

    // The 24 ways in which a cube can lie.
    private static IEnumerable<Motion> Quarters()
    {
        Vector[] tops = [Vector.Zero, new(Math.PI, 0, 0), new(Math.PI / 2, 0, 0), new(-Math.PI / 2, 0, 0), new(0, Math.PI / 2, 0), new(0, -Math.PI / 2, 0)];
        return tops.SelectMany(top => Enumerable.Range(0, 4).Select(i => Turned(top).After(Turned(new(0, 0, i * Math.PI / 2)))));
    }

    private static Motion Shifted(Motion turn, List<(Point At, Dictionary<Along, double> Read)> points)
    {
        double Mean(Along along, Func<Point, double> of)
        {
            var off = points.Where(p => p.Read.ContainsKey(along)).Select(p => p.Read[along] - of(turn.Of(p.At))).ToList();
            return off.Count > 0 ? off.Average() : 0;
        }

        return Motion.About(Point.Origin, new(Mean(Along.East, p => p.X), Mean(Along.North, p => p.Y), Mean(Along.Up, p => p.Z)), Vector.Zero).After(turn);
    }

    private static Motion Turned(Vector turn) => Motion.About(Point.Origin, Vector.Zero, turn);

    private static Vector TurnOf(Matrix<double> q)
    {
        // Through two rotations of unit vectors: east to its image, then about it.
        var (east, north) = (new Vector(q[0, 0], q[1, 0], q[2, 0]), new Vector(q[0, 1], q[1, 1], q[2, 1]));
        var axis = Vector.East.Cross(east);
        var first = axis.Length > 1e-9
            ? Turned(axis.Unit * Vector.East.AngleTo(east))
            : Turned(east.X > 0 ? Vector.Zero : Vector.Up * Math.PI);
        var was = first.Of(Vector.North);
        var angle = Math.Atan2(was.Cross(north).Dot(east), was.Dot(north));
        return Turned(east * angle).After(first).Turn;
    }

    private static (Point, Point) Middles(List<(Point At, Point Read)> points) =>
        (Point.Origin + (points.Aggregate(Vector.Zero, (s, p) => s + (p.At - Point.Origin)) / points.Count), Point.Origin + (points.Aggregate(Vector.Zero, (s, p) => s + (p.Read - Point.Origin)) / points.Count));

    private static Vector<double> Column(Vector v) => Vector<double>.Build.Dense([v.X, v.Y, v.Z]);
}
