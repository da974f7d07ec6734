using MathNet.Numerics.LinearAlgebra;
using Rootgap.FitUp;
using Rootgap.Measure;
using Rootgap.Site.Surveys;

namespace Rootgap.Site.Closing;

/// <summary>How bodies that hang together are to be moved: shift and rotation vector about the mean of their reference points, mm and radians.</summary>
public sealed record Moved(IReadOnlyList<SiteBody> Bodies, Point Centre, Vector Shift, Vector Turn)
{
    public Motion Motion => Motion.About(Centre, Shift, Turn);
}

/// <summary>What is still over its limit after the best movement.</summary>
/// <param name="Over">In units of its limit.</param>
public sealed record Remains(string Joint, string What, double Over);

/// <summary>The smallest movement that brings every joint which is not made inside its limits.</summary>
/// <param name="Moves">The bodies that move; none where everything closes as it stands.</param>
/// <param name="After">Where everything stands after the movement.</param>
/// <param name="Remaining">What no movement takes away; none where it closes.</param>
public sealed record LeastMovement(IReadOnlyList<Moved> Moves, Standing After, IReadOnlyList<Remains> Remaining, bool IsSettled)
{
    public bool IsNeeded => Moves.Count > 0 || Remaining.Count > 0;

    public static LeastMovement Of(Adjustment adjustment, IReadOnlyList<Closure> closures) => new Search(adjustment, closures).Find();

    /// <summary>A group's numbers are counted in these: 50 mm and 3 degrees.</summary>
    private const double ShiftUnit = 50;
    private const double TurnUnit = 3 * Math.PI / 180;

    private sealed class Search
    {
        private const int MostRounds = 400;

        private readonly Adjustment adjustment;
        private readonly List<(IReadOnlyList<SiteBody> Bodies, Point Centre)> groups = [];
        private readonly int[] groupOf;
        private readonly List<JointState> joints;
        private readonly List<(JointState State, double[] Before, double[] Units)> loose;
        private readonly List<Cone> limits = [];
        private readonly Standing scratch;

        public Search(Adjustment adjustment, IReadOnlyList<Closure> closures)
        {
            this.adjustment = adjustment;
            var (line, survey) = (adjustment.Line, adjustment.Survey);
            var shop = line.Fabrication.Route.Drawing.Shop;
            groupOf = Groups();
            scratch = adjustment.Standing with { Motions = (Motion[])adjustment.Standing.Motions.Clone() };
            joints = [.. line.Joints.Where(j => !survey.Made.Contains(j.Id))
                .Select(j => JointState.Of(j, closures.FirstOrDefault(c => c.Joint == j), shop.HiLo, shop.GapVariation))];
            loose = [.. joints.Where(j => survey.Loose.Contains(j.Joint.Id)).Select(j => (j, Six(j.Joint, adjustment.Standing), JointState.Units(j.Joint)))];
            for (var g = 0; g < groups.Count; g++)
                AddLimits(g);
        }

        public LeastMovement Find()
        {
            var none = new double[groups.Count * 6];
            if (Over(none).Count == 0)
                return new([], adjustment.Standing, [], IsSettled: true);
            var barrier = new Barrier(none.Length, Used, Terms, Effort);
            var (x, isInside, isSettled) = barrier.Minimise(none, MostRounds);
            if (!isInside)
                (x, isSettled) = LeastOver(x);
            return new([.. groups.Select((g, i) => MovedBy(i, x)).Where(m => m.Shift.Length > 1e-6 || m.Turn.Length > 1e-9)], StandingAt(x), Over(x), isSettled);
        }

        // Bodies tied by made joints are one group; what is tied to something outside, or held, is none and stays.
        private int[] Groups()
        {
            var (line, survey) = (adjustment.Line, adjustment.Survey);
            var root = Enumerable.Range(0, line.Bodies.Count).ToArray();
            int Root(int i) => root[i] == i ? i : root[i] = Root(root[i]);
            foreach (var joint in line.Joints.Where(j => survey.Made.Contains(j.Id)))
                root[Root(joint.First.Body.Index)] = Root(joint.Second.Body.Index);
            var of = new int[root.Length];
            Array.Fill(of, -1);
            foreach (var bodies in line.Bodies.GroupBy(b => Root(b.Index)))
            {
                if (bodies.Any(b => b.IsOutside || survey.Held.Contains(b.Name) || !line.Ends.Any(e => e.Body == b)))
                    continue;
                foreach (var body in bodies)
                    of[body.Index] = groups.Count;
                groups.Add(([.. bodies], Point.Origin + (bodies.Aggregate(Vector.Zero, (s, b) => s + (b.Reference - Point.Origin)) / bodies.Count())));
            }

            return of;
        }

        private void AddLimits(int group)
        {
            foreach (var body in groups[group].Bodies)
            {
                if (!adjustment.Survey.Limits.TryGetValue(body.Name, out var may))
                    continue;
                var first = group * 6;
                void Within(string what, double? limit, Func<double[], double[]> values)
                {
                    // A limit of nothing still leaves a hair, so that the search has room.
                    if (limit is { } mm)
                        limits.Add(new(body.Name, what, _ => Math.Max(mm, 1e-3), values, Math.Max(mm, 1e-3)));
                }

                Within("east", may.East, x => [x[first] * ShiftUnit]);
                Within("north", may.North, x => [x[first + 1] * ShiftUnit]);
                Within("up", may.Up, x => [x[first + 2] * ShiftUnit]);
                Within("turn", may.Turn is { } t ? t / TurnUnit : null, x => [x[first + 3], x[first + 4], x[first + 5]]);
            }
        }

        private Moved MovedBy(int group, double[] x)
        {
            var i = group * 6;
            return new(groups[group].Bodies, groups[group].Centre, new Vector(x[i], x[i + 1], x[i + 2]) * ShiftUnit, new Vector(x[i + 3], x[i + 4], x[i + 5]) * TurnUnit);
        }

        private Standing StandingAt(double[] x)
        {
            var motions = (Motion[])adjustment.Standing.Motions.Clone();
            foreach (var end in adjustment.Line.Ends)
            {
                if (groupOf[end.Body.Index] is >= 0 and var g)
                    motions[end.Index] = MovedBy(g, x).Motion.After(motions[end.Index]);
            }

            return adjustment.Standing with { Motions = motions };
        }

        private List<Remains> Over(double[] x)
        {
            var standing = StandingAt(x);
            return [.. joints.SelectMany(j => j.Over(standing))];
        }

        // What each cone measures, where the search may change it, in the order of Terms.
        private IEnumerable<double[]> Used(double[] x)
        {
            var standing = StandingAt(x);
            return [.. joints.Where(j => Moving(j.Joint).Length > 0).SelectMany(j => UsedAt(j, standing)), .. limits.Select(c => ConeTerm.UsedOf(c, x))];
        }

        private static double[][] UsedAt(JointState state, Standing standing)
        {
            var values = state.Measure(standing);
            return [.. state.Cones.Select(c => ConeTerm.UsedOf(c, values))];
        }

        // The numbers on which a joint depends; none where its two sides cannot move, or move as one.
        private int[] Moving(SiteJoint joint)
        {
            var (one, two) = (groupOf[joint.First.Body.Index], groupOf[joint.Second.Body.Index]);
            return one == two ? [] : [.. new[] { one, two }.Where(g => g >= 0).SelectMany(g => Enumerable.Range(g * 6, 6))];
        }

        // The same with slopes.
        private IEnumerable<ConeTerm> Terms(double[] x)
        {
            var standing = StandingAt(x);
            foreach (var state in joints)
            {
                if (Moving(state.Joint) is not { Length: > 0 } moving)
                    continue;
                var here = UsedAt(state, standing);
                var flat = Differences(x, moving, y => [.. UsedAt(state, StandingOf(state.Joint, y)).SelectMany(u => u)]);
                var first = 0;
                foreach (var used in here)
                {
                    yield return new(moving, used, [.. flat.Select(row => row[first..(first + used.Length)])]);
                    first += used.Length;
                }
            }

            int[] all = [.. Enumerable.Range(0, x.Length)];
            foreach (var cone in limits)
                yield return new(all, ConeTerm.UsedOf(cone, x), Differences(x, all, y => ConeTerm.UsedOf(cone, y)));
        }

        // Only the two ends of one joint moved: the rest does not matter there. The same standing is written over each time.
        private Standing StandingOf(SiteJoint joint, double[] x)
        {
            foreach (var end in joint.Sides)
            {
                if (groupOf[end.Body.Index] is >= 0 and var g)
                    scratch.Motions[end.Index] = MovedBy(g, x).Motion.After(adjustment.Standing.Motions[end.Index]);
            }

            return scratch;
        }

        // The sum that is to be least: value, slope and curvature (Gauss-Newton).
        private (double Value, Vector<double> Slope, Matrix<double> Curve) Effort(double[] x)
        {
            var value = x.Sum(v => v * v);
            var slope = Vector<double>.Build.Dense(x.Length, i => 2 * x[i]);
            var curve = Matrix<double>.Build.DenseDiagonal(x.Length, x.Length, 2);
            foreach (var (state, before, units) in loose)
            {
                var moving = Moving(state.Joint);
                var now = Six(state.Joint, StandingOf(state.Joint, x));
                var slopes = Differences(x, moving, y => Six(state.Joint, StandingOf(state.Joint, y)));
                for (var k = 0; k < 6; k++)
                {
                    var off = (now[k] - before[k]) / units[k];
                    value += off * off;
                    for (var i = 0; i < moving.Length; i++)
                    {
                        slope[moving[i]] += 2 * off * slopes[i][k] / units[k];
                        for (var j = 0; j < moving.Length; j++)
                            curve[moving[i], moving[j]] += 2 * slopes[i][k] * slopes[j][k] / (units[k] * units[k]);
                    }
                }
            }

            return (value, slope, curve);
        }

        private static double[] Six(SiteJoint joint, Standing standing)
        {
            var e = Adjustment.Opening(joint, standing);
            return [e.X, e.Y, e.Z, e.Rx, e.Ry, e.Rz];
        }

        private static double[][] Differences(double[] x, int[] moving, Func<double[], double[]> values)
        {
            const double Step = 1e-5;
            var slopes = new double[moving.Length][];
            for (var i = 0; i < moving.Length; i++)
            {
                var was = x[moving[i]];
                x[moving[i]] = was + Step;
                var up = values(x);
                x[moving[i]] = was - Step;
                var down = values(x);
                x[moving[i]] = was;
                slopes[i] = [.. up.Select((v, k) => (v - down[k]) / (2 * Step))];
            }

            return slopes;
        }

        // Where nothing brings all inside: the least squares of what is over, in units of its limit.
        private (double[] X, bool IsSettled) LeastOver(double[] start)
        {
            var x = start;
            var damping = 1e-3;
            var (cost, right, normal) = Overs(x);
            for (var round = 0; round < MostRounds; round++)
            {
                var damped = normal.Clone();
                for (var i = 0; i < x.Length; i++)
                    damped[i, i] += damping;
                var step = damped.Solve(right);
                var next = x.Select((v, i) => v + step[i]).ToArray();
                var there = Overs(next);
                if (there.Cost <= cost)
                {
                    var gained = cost - there.Cost;
                    (x, cost, right, normal) = (next, there.Cost, there.Right, there.Normal);
                    damping = Math.Max(1e-9, damping / 5);
                    if (step.AbsoluteMaximum() * ShiftUnit < 0.01 || gained < 1e-9 * cost)
                        return (x, true);
                }
                else
                {
                    damping *= 5;
                    if (damping > 1e12)
                        return (x, true);
                }
            }

            return (x, false);
        }

        private (double Cost, Vector<double> Right, Matrix<double> Normal) Overs(double[] x)
        {
            // A trace of the effort keeps what nothing asks for where it is.
            const double Trace = 1e-6;
            var cost = Trace * x.Sum(v => v * v);
            var right = Vector<double>.Build.Dense(x.Length, i => -Trace * x[i]);
            var normal = Matrix<double>.Build.DenseDiagonal(x.Length, x.Length, Trace);
            foreach (var term in Terms(x))
            {
                if (term.Over <= 0)
                    continue;
                var (over, slope) = term.Excess();
                for (var c = 0; c < over.Length; c++)
                {
                    cost += over[c] * over[c];
                    for (var i = 0; i < term.Moving.Length; i++)
                    {
                        right[term.Moving[i]] -= over[c] * slope[i][c];
                        for (var k = 0; k < term.Moving.Length; k++)
                            normal[term.Moving[i], term.Moving[k]] += slope[i][c] * slope[k][c];
                    }
                }
            }

            return (cost, right, normal);
        }
    }
}
