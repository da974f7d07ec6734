using Rootgap.Site.Forecasting;
using static Rootgap.Tests.Site.Forecasting.ChainByHand;

namespace Rootgap.Tests.Site.Forecasting;

/// <summary>
/// The chance to close against draws and a search of its own: levers by the cross product, and for each draw the settings of the joints within their limits that bring
/// the opening nearest to what the weld bears, by projected gradients (Nesterov; Beck and Teboulle, 2009), where the engine walks between corners. All errors here are
/// far above the gasket's and the root's half millimetres, so the length (100 extra) never decides.
/// </summary>
public class ChanceTest
{
    private const double Outside = 114.3, Circle = 190.5, Arm = 1000;

    // B16.5 NPS 4 class 150: hole 19.05 (3/4 in.), bolt 15.875 (5/8); 3 mm of it counts at most (B31.3 335.1.1).
    private const double Play = 3;

    private const int Draws = 600;

    private enum Kind
    {
        Bolted,
        Weld,
    }

    private static readonly double[] B1 = [0, 0, -1.6], Field = [2500 - 152.4, 0, 1500], Final = [2500, 3500 - 152.4, 1500], B6 = [3701.6, 3500, 1500];

    [Theory]
    [InlineData(30, 1.5, "field", 0.3, 0.95)]
    [InlineData(8, 0.6, "shop", 0.2, 0.95)]
    [InlineData(30, 1.5, "shop", 0.0, 0.4)]
    public void Lines_close_as_often_as_a_search_of_its_own_finds(double position, double angle, string weld, double least, double most)
    {
        var closing = Assert.Single(Forecast.Of(Given.Packet(FormattableString.Invariant($$$"""
            drawing: T-6
            line: {size: 4, schedule: 40, class: 150, gasket: 3.2}
            shop: {root gap: 0}
            forecast: {other: {position: {{{position}}}, angle: {{{angle}}}}}
            runs:
              - run: main
                start: {to: flange, at: {up: 0}}
                legs:
                  - {go: up, by: 1500, to: elbow}
                  - {go: east, by: 2500, to: elbow, end: {{{weld}}}}
                  - {go: north, by: 3500, to: elbow, end: final-fit}
                  - {go: east, by: 1200, to: flange}
            """)).Fabrication, new(Draws: 1000)).Closings);
        var byHand = ByHand(position, angle, weld == "field", Draws);
        Assert.InRange(byHand, least, most);
        // Three standard deviations of the difference of two counts.
        var scatter = 3 * Math.Sqrt(Math.Max(byHand * (1 - byHand), 0.002) * ((1.0 / 1000) + (1.0 / Draws)));
        Assert.True(Math.Abs(closing.Closes!.Value - byHand) <= scatter, $"{closing.Closes} by the engine, {byHand} by hand, {scatter} allowed");
    }

    private static double ByHand(double position, double angle, bool hasField, int count)
    {
        var (up, east, north) = (Clock(0, 0, 1), Clock(1, 0, 0), Clock(0, 1, 0));
        var a = angle * Degree;
        var checkedTurn = 0.22 * Degree;
        // Errors that are not those of a joint which is set: the things outside, and each spool's far end (PFI ES-3); of the pipe that is cut, its length is none.
        var errors = new List<(double[] Effect, double Limit)>();
        Add(B1, up, [position, position, position, a, a, a]);
        if (hasField)
            Add(Field, east, [3, 3, 3, checkedTurn, checkedTurn, 0]);
        Add(Final, north, [3, 3, 0, checkedTurn, checkedTurn, 0]);
        Add(B6, east, [position, position, position, a, a, a]);
        Add(Final, north, [3, 3, 3, checkedTurn, checkedTurn, 0]);
        List<(double[] At, double[][] Axes, Kind Kind)> joints = hasField ? [(B1, up, Kind.Bolted), (Field, east, Kind.Weld), (B6, east, Kind.Bolted)] : [(B1, up, Kind.Bolted), (B6, east, Kind.Bolted)];
        // Columns for a setting of one in units of its limit.
        var columns = joints.SelectMany(j => Enumerable.Range(0, 6).Select(k => Times(Effect(j.At, j.Axes, k), Limit(j.Kind, k)))).ToArray();
        var kinds = joints.ConvertAll(j => j.Kind);
        var chance = new Random(77);
        var closes = 0;
        for (var n = 0; n < count; n++)
        {
            double[] opening = [0, 0, 0, 0];
            foreach (var (effect, limit) in errors)
            {
                var drawn = limit * ((2 * chance.NextDouble()) - 1);
                for (var i = 0; i < 4; i++)
                    opening[i] += effect[i] * drawn;
            }

            closes += Nearest(opening, columns, kinds) < 0.02 ? 1 : 0;
        }

        return (double)closes / count;

        void Add(double[] at, double[][] axes, double[] limits)
        {
            for (var k = 0; k < 6; k++)
            {
                if (limits[k] > 0)
                    errors.Add((Effect(at, axes, k), limits[k]));
            }
        }
    }

    /// <summary>What an error of one, mm or radian, does at the weld: toward 3 and 12, and the turns about them in mm at a metre. Its sign is no matter, all is either way.</summary>
    private static double[] Effect(double[] at, double[][] axes, int k)
    {
        var weld = Clock(0, 1, 0);
        var d = axes[k % 3];
        double[] shift = d, turn = [0, 0, 0];
        if (k >= 3)
        {
            double[] arm = [Final[0] - at[0], Final[1] - at[1], Final[2] - at[2]];
            shift = [(d[1] * arm[2]) - (d[2] * arm[1]), (d[2] * arm[0]) - (d[0] * arm[2]), (d[0] * arm[1]) - (d[1] * arm[0])];
            turn = d;
        }

        return [Dot(shift, weld[0]), Dot(shift, weld[1]), Arm * Dot(turn, weld[0]), Arm * Dot(turn, weld[1])];
    }

    private static double Limit(Kind kind, int k) => (kind, k) switch
    {
        (Kind.Bolted, 0 or 1) => Play,
        (Kind.Bolted, 2) => 0.5,
        (Kind.Bolted, 3 or 4) => 1.0 / 200,
        (Kind.Bolted, _) => Play / (Circle / 2),
        (_, 0 or 1) => 1.5,
        (_, 2) => 1,
        (_, 3 or 4) => 0.8 / Outside,
        _ => 5 * Degree,
    };

    /// <summary>How near the opening comes to what the weld bears: 1.5 mm aside, 0.8 mm round the pipe.</summary>
    private static double Nearest(double[] opening, double[][] columns, List<Kind> kinds)
    {
        var n = columns.Length;
        // The step: one over the greatest curvature, which the sum of the squares of the columns is never under.
        var step = 1 / columns.Sum(c => Dot(c, c));
        var (u, v) = (new double[n], new double[n]);
        var t = 1.0;
        var least = double.MaxValue;
        for (var round = 0; round < 4000 && least >= 0.02; round++)
        {
            var left = Left(opening, columns, v);
            var next = new double[n];
            for (var i = 0; i < n; i++)
                next[i] = v[i] - (step * Dot(columns[i], left));
            for (var j = 0; j < kinds.Count; j++)
                Within(kinds[j], next.AsSpan(6 * j, 6));
            var far = Left(opening, columns, next);
            least = Math.Min(least, Math.Sqrt(Dot(far, far)));
            var after = (1 + Math.Sqrt(1 + (4 * t * t))) / 2;
            for (var i = 0; i < n; i++)
                v[i] = next[i] + ((t - 1) / after * (next[i] - u[i]));
            (u, t) = (next, after);
        }

        return least;
    }

    /// <summary>What is left of the opening beyond what the weld bears.</summary>
    private static double[] Left(double[] opening, double[][] columns, double[] u)
    {
        var r = (double[])opening.Clone();
        for (var i = 0; i < columns.Length; i++)
        {
            for (var k = 0; k < 4; k++)
                r[k] += columns[i][k] * u[i];
        }

        Beyond(r.AsSpan(0, 2), 1.5);
        Beyond(r.AsSpan(2, 2), Arm * 0.8 / Outside);
        return r;

        static void Beyond(Span<double> two, double limit)
        {
            var length = Math.Sqrt((two[0] * two[0]) + (two[1] * two[1]));
            var share = length > limit ? 1 - (limit / length) : 0;
            (two[0], two[1]) = (two[0] * share, two[1] * share);
        }
    }

    /// <summary>The nearest setting within the limits. At a bolted joint shift and roll share the play.</summary>
    private static void Within(Kind kind, Span<double> six)
    {
        Disc(six.Slice(3, 2), 1);
        six[2] = Math.Clamp(six[2], -1, 1);
        if (kind == Kind.Weld)
        {
            Disc(six[..2], 1);
            six[5] = Math.Clamp(six[5], -1, 1);
            return;
        }

        var (aside, roll) = (Math.Sqrt((six[0] * six[0]) + (six[1] * six[1])), Math.Abs(six[5]));
        if (aside + roll <= 1)
            return;
        var shared = Math.Clamp((aside - roll + 1) / 2, 0, 1);
        Disc(six[..2], shared);
        six[5] = Math.Sign(six[5]) * Math.Min(roll, 1 - shared);
    }

    private static void Disc(Span<double> two, double radius)
    {
        var length = Math.Sqrt((two[0] * two[0]) + (two[1] * two[1]));
        if (length > radius)
            (two[0], two[1]) = (two[0] * radius / length, two[1] * radius / length);
    }

    private static double[] Times(double[] a, double f) => [.. a.Select(v => v * f)];

    private static double Dot(double[] a, double[] b) => a.Zip(b, (x, y) => x * y).Sum();
}
