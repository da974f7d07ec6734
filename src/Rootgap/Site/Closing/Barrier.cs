using MathNet.Numerics.LinearAlgebra;

namespace Rootgap.Site.Closing;

/// <summary>A cone where the search stands: its limit and values, and how they change with the numbers searched for.</summary>
/// <param name="Moving">Indices of the numbers on which it depends.</param>
/// <param name="Used">In units of the printed limit: how much room there is (first) and what is measured.</param>
/// <param name="Slopes">Of each of these with each moving number.</param>
internal sealed record ConeTerm(int[] Moving, double[] Used, double[][] Slopes)
{
    /// <summary>How much room a cone has and what is measured, in units of its printed limit.</summary>
    public static double[] UsedOf(Cone cone, double[] values)
    {
        var unit = cone.Usual > 0 ? cone.Usual : 1;
        return [cone.Limit(values) / unit, .. cone.Values(values).Select(x => x / unit)];
    }

    /// <summary>How far what is measured is over its limit, in its units; less than nothing within it.</summary>
    public double Over => Length - Used[0];

    private double Length => Math.Sqrt(Used.Skip(1).Sum(v => v * v));

    /// <summary>What is over the limit as a vector, from the nearest place within it, and how that changes with each moving number.</summary>
    public (double[] Over, double[][] Slopes) Excess()
    {
        var (length, limit) = (Length, Used[0]);
        var along = Used.Skip(1).Select(v => length > 0 ? v / length : 0).ToArray();
        return ([.. along.Select(a => a * (length - limit))], [.. Slopes.Select(s =>
        {
            var outward = along.Select((a, k) => a * s[k + 1]).Sum();
            return along.Select((a, k) => s[k + 1] - (a * s[0]) - (limit > 0 ? limit / length * (s[k + 1] - (a * outward)) : 0)).ToArray();
        })]);
    }
}

/// <summary>The least of a sum under cones, from inside them (logarithmic barrier; Boyd and Vandenberghe, Convex Optimization, chapter 11): first a place inside, then the least.</summary>
/// <param name="count">How many numbers are searched for.</param>
/// <param name="used">How much room each cone has at a place and what is measured (<see cref="ConeTerm.Used"/>).</param>
/// <param name="terms">The cones at a place, in the same order.</param>
/// <param name="effort">The sum at a place, with slope and curvature.</param>
internal sealed class Barrier(int count, Func<double[], IEnumerable<double[]>> used, Func<double[], IEnumerable<ConeTerm>> terms, Func<double[], (double Value, Vector<double> Slope, Matrix<double> Curve)> effort)
{
    /// <summary>Weight of the sum at the end: what the barrier still costs is under a millionth of it for each cone.</summary>
    private const double LastWeight = 1e8;

    /// <summary>Newton's decrement under which a weight is done with.</summary>
    private const double Rest = 1e-5;

    /// <returns>The place, whether it is inside all cones, and whether steps came to rest.</returns>
    public (double[] X, bool IsInside, bool IsSettled) Minimise(double[] start, int mostRounds)
    {
        // With slack, every place can be inside: the slack is brought under nothing first.
        var slack = terms(start).Max(t => t.Over) + 1;
        var x = start;
        var rounds = 0;
        for (var weight = 1.0; slack > -1e-4 && weight < 1e7; weight *= 4)
        {
            for (var i = 0; i < 40 && rounds < mostRounds; i++, rounds++)
            {
                var (next, nextSlack, step) = Newton(x, slack, weight);
                (x, slack) = (next, nextSlack);
                if (slack < -1e-4 || step < 1e-4)
                    break;
            }
        }

        if (slack >= 0)
            return (x, false, rounds < mostRounds);
        for (var weight = 1.0; weight <= LastWeight; weight *= 8)
        {
            for (var i = 0; i < 60 && rounds < mostRounds; i++, rounds++)
            {
                var (next, _, step) = Newton(x, null, weight);
                x = next;
                if (step < Rest)
                    break;
            }
        }

        return (x, true, rounds < mostRounds);
    }

    private (double[] X, double Slack, double Step) Newton(double[] x, double? slack, double weight)
    {
        var n = count + (slack is null ? 0 : 1);
        var slope = Vector<double>.Build.Dense(n);
        var curve = Matrix<double>.Build.Dense(n, n);
        // While a place inside is sought the effort only leads, lightly.
        var lead = slack is null ? weight : 1e-3;
        var (_, effortSlope, effortCurve) = effort(x);
        for (var i = 0; i < count; i++)
        {
            slope[i] = lead * effortSlope[i];
            for (var k = 0; k < count; k++)
                curve[i, k] = lead * effortCurve[i, k];
        }

        if (slack is not null)
            slope[count] = weight;
        foreach (var term in terms(x))
            Add(term, slack, slope, curve);
        for (var i = 0; i < n; i++)
            curve[i, i] += 1e-12 * (1 + curve[i, i]);
        var step = curve.Cholesky().Solve(-slope);
        var here = Value(x, slack, weight)!.Value;
        var downhill = step.DotProduct(slope);
        for (var share = 1.0; share > 1e-10; share /= 2)
        {
            var next = x.Select((v, i) => v + (share * step[i])).ToArray();
            var nextSlack = slack + (share * (slack is null ? 0 : step[count]));
            if (Value(next, nextSlack, weight) is { } there && there <= here + (0.1 * share * downhill))
                return (next, nextSlack ?? 0, -downhill);
        }

        return (x, slack ?? 0, 0);
    }

    // The barrier of one cone, -log(t^2 - |u|^2), on its linear place.
    private static void Add(ConeTerm term, double? slack, Vector<double> slope, Matrix<double> curve)
    {
        var t = term.Used[0] + (slack ?? 0);
        var u = term.Used[1..];
        var q = t * t;
        foreach (var v in u)
            q -= v * v;
        // How q and its parts change with each number; the slack widens the limit alone.
        var m = term.Moving.Length + (slack is null ? 0 : 1);
        int At(int i) => i < term.Moving.Length ? term.Moving[i] : slope.Count - 1;
        double[] Parts(int i) => i < term.Moving.Length ? term.Slopes[i] : [1, .. new double[term.Used.Length - 1]];
        var parts = Enumerable.Range(0, m).Select(Parts).ToArray();
        var dq = new double[m];
        for (var i = 0; i < m; i++)
        {
            dq[i] = 2 * t * parts[i][0];
            for (var k = 0; k < u.Length; k++)
                dq[i] -= 2 * u[k] * parts[i][k + 1];
        }

        for (var i = 0; i < m; i++)
        {
            slope[At(i)] -= dq[i] / q;
            for (var j = 0; j < m; j++)
            {
                var second = parts[i][0] * parts[j][0];
                for (var k = 0; k < u.Length; k++)
                    second -= parts[i][k + 1] * parts[j][k + 1];
                curve[At(i), At(j)] += (dq[i] * dq[j] / (q * q)) - (2 * second / q);
            }
        }
    }

    /// <summary>What Newton lowers; null outside a cone.</summary>
    private double? Value(double[] x, double? slack, double weight)
    {
        var value = ((slack is null ? weight : 1e-3) * effort(x).Value) + (weight * (slack ?? 0));
        foreach (var room in used(x))
        {
            var t = room[0] + (slack ?? 0);
            var q = t * t;
            for (var i = 1; i < room.Length; i++)
                q -= room[i] * room[i];
            if (t <= 0 || q <= 0)
                return null;
            value -= Math.Log(q);
        }

        return value;
    }
}
