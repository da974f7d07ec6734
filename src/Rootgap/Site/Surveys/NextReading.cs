using Rootgap.Measure;
using Rootgap.Site.Closing;

namespace Rootgap.Site.Surveys;

/// <summary>A reading not yet taken, and what it would do to a closing's doubt.</summary>
/// <param name="Before">Doubt of the closing now.</param>
/// <param name="After">Doubt of it with this reading taken as well.</param>
/// <param name="Sd">What would be left of the five standard deviations, in the order of <see cref="Closure.Names"/>.</param>
public sealed record NextReading(Closure Closing, SiteReading Reading, double Before, double After, IReadOnlyList<double> Sd);

/// <summary>Which reading would tell most: of all single ones that can be touched, the one that leaves least doubt of a closing.</summary>
public sealed class ReadingSearch
{
    private readonly Adjustment adjustment;
    private readonly Closure closure;

    /// <summary>Slopes of the closing's five values over the covariance: what each unknown tells of each.</summary>
    private readonly double[][] told;

    private readonly double[] variance;
    private readonly NearbyReadings near;
    private readonly HashSet<SiteReading> taken;
    private readonly List<(SiteBody One, SiteBody Other, List<SiteBody> Aside)> apart;
    private readonly Dictionary<SiteReading, List<(int Unknown, double Slope)>> slopes = [];
    private readonly Dictionary<Touch, List<(int Unknown, Vector Slope)>> pointSlopes = [];

    public ReadingSearch(Adjustment adjustment, Closure closure)
    {
        (this.adjustment, this.closure) = (adjustment, closure);
        near = new(adjustment.Line, adjustment.Survey);
        taken = [.. adjustment.Survey.Readings.Select(r => r.Reading)];
        apart = Candidates.Apart(adjustment.Line, adjustment.Survey);
        var count = adjustment.Unknowns.Count;
        var values = Closure.Values(closure.Joint).Select(v => adjustment.SlopesOf([closure.Joint.First, closure.Joint.Second], v)).ToList();
        told = [.. values.Select(row =>
        {
            var over = new double[count];
            foreach (var (i, a) in row)
            {
                for (var k = 0; k < count; k++)
                    over[k] += a * adjustment.Covariance[i, k];
            }

            return over;
        })];
        variance = [.. values.Select((row, v) => row.Sum(s => s.Slope * told[v][s.Unknown]))];
    }

    /// <summary>The best of all single readings; null where none tells anything.</summary>
    public NextReading? Best() => Top(Tried).Select(Finer).MinBy(n => n.After);

    /// <summary>The best of those at the quarters, the nearest holes and round distances: what a sheet asks for that is filled in by hand.</summary>
    public NextReading? Plain() => Of(Candidates.Of(adjustment.Line, adjustment.Survey, closure.Joint));

    /// <summary>From so many kinds of readings on, their points are moved as long as that tells more.</summary>
    private const int Tried = 4;

    /// <summary>The best few, each of another kind or between other ends: what a fitter may choose from.</summary>
    public IReadOnlyList<NextReading> Top(int count) =>
        [.. Candidates.Of(adjustment.Line, adjustment.Survey, closure.Joint).Select(r => With(r) is var sd ? new NextReading(closure, r, closure.Doubt, Doubt(sd), sd) : null!)
            .Where(n => n.After < n.Before).OrderBy(n => n.After)
            .DistinctBy(n => (n.Reading.Word, string.Join(',', n.Reading.Ends.Select(e => e.Name)))).Take(count)];

    /// <summary>The same reading with its points where they tell most.</summary>
    private NextReading Finer(NextReading from)
    {
        var best = from;
        while (Of(near.Of(best.Reading).Where(r => Candidates.IsOpen(r, taken, apart))) is { } next && next.After < best.After * (1 - 1e-6))
            best = next;
        return best;
    }

    /// <summary>The best of some readings.</summary>
    public NextReading? Of(IEnumerable<SiteReading> readings)
    {
        NextReading? best = null;
        foreach (var reading in readings)
        {
            var sd = With(reading);
            var after = Doubt(sd);
            if (best is null ? after < closure.Doubt * (1 - 1e-9) : after < best.After - 1e-12)
                best = new(closure, reading, closure.Doubt, after, sd);
        }

        return best;
    }

    /// <summary>The five standard deviations with one reading more, taken with its usual spread.</summary>
    public double[] With(SiteReading reading)
    {
        var row = SlopesOf(reading);
        var value = reading.Of(adjustment.Standing);
        var sd = reading is SiteReading.Coordinate { Along: Along.Up } && !adjustment.Survey.TotalStation ? 1 : reading.UsualSd(value, adjustment.Survey.TotalStation);
        var own = sd * sd;
        foreach (var (i, a) in row)
        {
            foreach (var (k, b) in row)
                own += a * b * adjustment.Covariance[i, k];
        }

        return [.. told.Select((over, v) =>
        {
            var shared = row.Sum(s => s.Slope * over[s.Unknown]);
            return Math.Sqrt(Math.Max(0, variance[v] - (shared * shared / own)));
        })];
    }

    private double Doubt(double[] sd) => Math.Sqrt(sd.Select((s, i) => s * s * closure.DoubtWeight(i)).Sum());

    // Tapes, heights and the like between points follow from the points' own slopes; the rest is stepped.
    private List<(int Unknown, double Slope)> SlopesOf(SiteReading reading)
    {
        if (slopes.TryGetValue(reading, out var known))
            return known;
        List<(int, double)> row = reading switch
        {
            SiteReading.Tape t => Between(t.From, t.To, way => way.Unit),
            SiteReading.Plumb p => Between(p.From, p.To, way => way.SquareTo(Vector.Up).Unit),
            SiteReading.Height h => Between(h.From, h.To, _ => Vector.Up),
            _ => adjustment.SlopesOf(reading.Ends, reading.Of, reading is SiteReading.Coordinate),
        };
        return slopes[reading] = row;
    }

    private List<(int Unknown, double Slope)> Between(Touch from, Touch to, Func<Vector, Vector> along)
    {
        var way = along(adjustment.Standing.At(to) - adjustment.Standing.At(from));
        var sum = new Dictionary<int, double>();
        foreach (var (touch, sign) in new[] { (to, 1), (from, -1) })
        {
            foreach (var (i, s) in PointSlopes(touch))
                sum[i] = sum.GetValueOrDefault(i) + (sign * s.Dot(way));
        }

        return [.. sum.Select(p => (p.Key, p.Value))];
    }

    private List<(int Unknown, Vector Slope)> PointSlopes(Touch touch)
    {
        if (pointSlopes.TryGetValue(touch, out var known))
            return known;
        var (x, y, z) = (adjustment.SlopesOf([touch.End], s => s.At(touch).X), adjustment.SlopesOf([touch.End], s => s.At(touch).Y), adjustment.SlopesOf([touch.End], s => s.At(touch).Z));
        return pointSlopes[touch] = [.. x.Select((s, i) => (s.Unknown, new Vector(s.Slope, y[i].Slope, z[i].Slope)))];
    }
}

/// <summary>The single readings that are weighed against each other for a closing: all kinds, on the ends of the two bodies that meet there and between these and all others.</summary>
/// <remarks>Not every pair of every hole: lips and quarter holes stand for what lies between them, and so a search stays within some milliseconds. From the best of them the search goes on to the places between (<see cref="NearbyReadings"/>).</remarks>
internal static class Candidates
{
    /// <summary>Where crowns and sides are offered, mm back from the end: round figures of the rule that is used.</summary>
    private static double[] BacksIn(Units units) => units == Units.Inches ? [4 * LengthText.Inch, 12 * LengthText.Inch, 36 * LengthText.Inch] : [100, 300, 900];

    public static IEnumerable<SiteReading> Of(SiteLine line, Survey survey, SiteJoint closing)
    {
        var taken = survey.Readings.Select(r => r.Reading).ToHashSet();
        var apart = Apart(line, survey);
        return Thinkable(line, survey, closing).Where(r => IsOpen(r, taken, apart));
    }

    /// <summary>Whether it can be taken now and has not been.</summary>
    internal static bool IsOpen(SiteReading reading, HashSet<SiteReading> taken, List<(SiteBody One, SiteBody Other, List<SiteBody> Aside)> apart) => !taken.Contains(reading) && IsTouchable(reading, apart);

    /// <summary>
    /// Final-fit welds where the pipe's extra is still on: its two bodies do not both stand in their places. Of them, the bodies that are laid aside or not up yet, by a joint that is
    /// only reckoned as put together: of these only what goes with them is read.
    /// </summary>
    internal static List<(SiteBody One, SiteBody Other, List<SiteBody> Aside)> Apart(SiteLine line, Survey survey) =>
        [.. line.FinalFits.Where(j => j.Long is not null && !survey.Made.Contains(j.Id) && BeyondOf(survey, j) > Math.Max(0, j.Gap)).Select(j => (
            j.First.Body, j.Second.Body,
            j.Sides.Select(e => e.Body).Where(b => line.Joints.Any(o => o != j && survey.Loose.Contains(o.Id) && o.Sides.Any(e => e.Body == b))).ToList()))];

    private static bool IsTouchable(SiteReading reading, List<(SiteBody One, SiteBody Other, List<SiteBody> Aside)> apart)
    {
        var isPlace = reading is SiteReading.Coordinate;
        foreach (var (one, other, aside) in apart)
        {
            var (touchesOne, touchesOther) = (false, false);
            foreach (var end in reading.Ends)
            {
                touchesOne |= end.Body == one;
                touchesOther |= end.Body == other;
                if (aside.Contains(end.Body) && (isPlace || reading.Ends.Any(e => e.Body != end.Body)))
                    return false;
            }

            if (touchesOne && touchesOther)
                return false;
        }

        return true;
    }

    private static IEnumerable<SiteReading> Thinkable(SiteLine line, Survey survey, SiteJoint closing)
    {
        var rims = line.Ends.ToDictionary(e => e, e => Rim(line, e));
        var backs = line.Ends.ToDictionary(e => e, e => Behind(line, survey, e));
        foreach (var joint in line.Joints.Where(j => j.Long is null || BeyondOf(survey, j) <= 0))
        {
            // Where the pipe's extra is on, the two do not stand face to face.
            foreach (var q in Clock.Quarters)
            {
                yield return new SiteReading.Gap(joint, q);
                yield return new SiteReading.HiLo(joint, q);
            }
        }

        foreach (var end in line.Ends)
        {
            var all = rims[end].Concat(backs[end]).ToList();
            foreach (var touch in all)
            {
                yield return new SiteReading.Coordinate(touch, Along.Up);
                if (survey.TotalStation)
                {
                    yield return new SiteReading.Coordinate(touch, Along.East);
                    yield return new SiteReading.Coordinate(touch, Along.North);
                }
            }

            foreach (var (from, to) in Pairs(all, all).Where(p => IsLevelled(p.From, p.To)))
                yield return new SiteReading.Slope(from, to);
        }

        for (var i = 0; i < line.Ends.Count; i++)
        {
            for (var k = i + 1; k < line.Ends.Count; k++)
            {
                var (a, b) = (line.Ends[i], line.Ends[k]);
                var meets = (Meets(closing, a) || a.Body.IsOutside) && (Meets(closing, b) || b.Body.IsOutside);
                if (!meets && !Meets(closing, a) && !Meets(closing, b))
                    continue;
                foreach (var (from, to) in Pairs(rims[a], rims[b]))
                {
                    var isLips = from.Kind == TouchKind.Lip && to.Kind == TouchKind.Lip;
                    if (meets || isLips)
                        yield return new SiteReading.Tape(from, to);
                    if (!isLips)
                        continue;
                    if (IsInReach(from, to))
                        yield return new SiteReading.Plumb(from, to);
                    yield return new SiteReading.Height(from, to);
                }

                // Between the pipes behind two ends: a square and a tape, a level from crown to crown.
                foreach (var (from, to) in Pairs(backs[a], backs[b]).Where(p => meets && p.From.Back == p.To.Back))
                {
                    yield return new SiteReading.Tape(from, to);
                    yield return new SiteReading.Height(from, to);
                }
            }
        }

        // A string or a straight edge laid along a pipe, to the rim of another end.
        foreach (var end in line.Ends.Where(e => Meets(closing, e)))
        {
            foreach (var laid in backs[end].GroupBy(t => t.Clock).Where(g => g.Count() > 1))
            {
                var (far, near) = (laid.MaxBy(t => t.Back)!, laid.MinBy(t => t.Back)!);
                foreach (var touch in line.Ends.Where(o => o.Body != end.Body).SelectMany(o => rims[o]).Where(t => t.Kind == TouchKind.Lip && IsInReach(far, near, t)))
                    yield return new SiteReading.StringLine(far, near, touch);
            }
        }
    }

    /// <summary>As drawn: a string is stretched on so far beyond the pipe that it lies along, and a rule reaches so far square to it, mm (common practice).</summary>
    private const double Stretched = 5000, Rule = 2000;

    /// <summary>So far a tape is held level from a plumb line, mm (common practice).</summary>
    private const double Level = 3000;

    internal static bool IsInReach(Touch from, Touch to) => (to.At(Motion.None, 0) - from.At(Motion.None, 0)).SquareTo(Vector.Up).Length <= Level;

    internal static bool IsInReach(Touch far, Touch near, Touch to)
    {
        var (a, b, c) = (far.At(Motion.None, 0), near.At(Motion.None, 0), to.At(Motion.None, 0));
        var along = (b - a).Unit;
        return Math.Abs((c - b).Dot(along)) <= Stretched && (c - b).SquareTo(along).Length <= Rule;
    }

    /// <summary>The lips at the quarters, and the bolt holes nearest to them.</summary>
    private static List<Touch> Rim(SiteLine line, SiteEnd end)
    {
        var joint = line.JointOf(end.Joint)!;
        var points = Clock.Quarters.Select(q => new Touch(joint, end, TouchKind.Lip, q)).ToList();
        for (var k = 0; end.Holes is { } holes && k < 4; k++)
            points.Add(new(joint, end, TouchKind.Hole, Hole: 1 + (k * holes.Count / 4)));
        return points;
    }

    private static List<Touch> Behind(SiteLine line, Survey survey, SiteEnd end)
    {
        var joint = line.JointOf(end.Joint)!;
        return [.. BacksOn(line, survey, end, BacksIn(line.Fabrication.Units))
            .SelectMany(b => Clock.Quarters.Select(q => q == 0 ? new Touch(joint, end, TouchKind.Crown, 0, b) : new Touch(joint, end, TouchKind.Side, q, b)))];
    }

    /// <summary>Those of some distances back from an end as it is now at which there is straight pipe, mm.</summary>
    internal static IEnumerable<double> BacksOn(SiteLine line, Survey survey, SiteEnd end, double[] backs)
    {
        var joint = line.JointOf(end.Joint)!;
        if (end.Straight is not { } pipe)
            return [];
        var beyond = joint.Long == end ? BeyondOf(survey, joint) : 0;
        var from = pipe.From > 0 ? pipe.From + beyond : 0;
        return backs.Where(b => b >= from && b <= pipe.To + beyond);
    }

    private static double BeyondOf(Survey survey, SiteJoint joint) => survey.StandsOut.TryGetValue(joint.Id, out var mm) ? mm : joint.Long?.Extra ?? 0;

    private static bool Meets(SiteJoint closing, SiteEnd end) => end.Body == closing.First.Body || end.Body == closing.Second.Body;

    internal static bool IsLevelled(Touch from, Touch to) => from.Kind == to.Kind && (from.Kind == TouchKind.Crown ? from.Back < to.Back : from.Kind == TouchKind.Hole && from.Hole < to.Hole);

    private static IEnumerable<(Touch From, Touch To)> Pairs(List<Touch> from, List<Touch> to) => from.SelectMany(a => to.Where(b => b != a).Select(b => (a, b)));
}
