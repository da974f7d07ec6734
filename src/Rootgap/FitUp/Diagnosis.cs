using MathNet.Numerics.LinearAlgebra;
using Rootgap.Measure;

namespace Rootgap.FitUp;

/// <summary>A reading as taken: mm, or radians for an angle.</summary>
/// <param name="Reading">What was read.</param>
/// <param name="Value">mm or radians.</param>
/// <param name="Sd">How well it was read, one standard deviation; the reading's usual one where not given.</param>
public sealed record Taken(Reading Reading, double Value, double? Sd = null)
{
    public double Spread => Sd ?? Reading.Sd;
}

/// <summary>What the readings taken say about where the new part is.</summary>
/// <param name="Error">The error found, without a reading that contradicts the others.</param>
/// <param name="Sd">One standard deviation of each component, mm and radians, in the order of <see cref="PoseError.Names"/>.</param>
/// <param name="Unseen">Components that the readings do not see: standard deviation over half of what was thought likely beforehand.</param>
/// <param name="Within">The error found is inside the limits, as far as it is seen.</param>
/// <param name="Again">Readings that do not agree with the others, worst first: take them again.</param>
/// <param name="Next">The reading not yet taken that would show most; none when enough is seen.</param>
/// <param name="Residuals">Reading minus what the error found explains, in the readings' order; mm or radians.</param>
public sealed record Diagnosis(
    PoseError Error, IReadOnlyList<double> Sd, IReadOnlyList<int> Unseen, bool Within,
    IReadOnlyList<Taken> Again, Reading? Next, IReadOnlyList<double> Residuals)
{
    // A reading is doubted when leaving it out improves the fit by more than its own 3.3 standard deviations squared (one in a thousand by chance).
    private const double Doubt = 3.3 * 3.3;

    public static Diagnosis Of(StandingJoint joint, FitTolerance tolerance, IReadOnlyList<Taken> taken, IReadOnlyList<Target> targets)
    {
        var (kept, again) = SetAside(joint, taken);
        var fit = Solve(joint, kept, Pull.WhereBlind);
        var posterior = fit.Covariance(everyPrior: true);
        var covariance = fit.Covariance(everyPrior: false);

        List<int> unseen = [];
        var sd = new double[6];
        for (var i = 0; i < 6; i++)
        {
            var likely = Math.Sqrt(posterior[i, i]);
            if (0.5 < likely)
                unseen.Add(i);
            // The prior pulls nothing that is seen, so the wider of the two spreads holds; beside the half-way mark they differ by a tenth at most.
            sd[i] = PoseError.Prior[i] * (0.5 < likely ? Math.Sqrt(covariance[i, i]) : Math.Min(0.5, Math.Sqrt(covariance[i, i])));
        }
        var residuals = taken.Select(t => t.Value - t.Reading.Measure(joint, fit.Error)).ToList();
        return new Diagnosis(
            fit.Error, sd, unseen, tolerance.Holds(Seen(fit.Error, unseen)), again,
            BestNext(joint, tolerance, fit, posterior, unseen, kept, targets), residuals);
    }

    // An unseen component says nothing either way.
    private static PoseError Seen(in PoseError e, List<int> unseen)
    {
        Span<double> v = stackalloc double[6];
        for (var i = 0; i < 6; i++)
            v[i] = unseen.Contains(i) ? 0 : e[i];
        return PoseError.From(v);
    }

    /// <summary>Where the prior holds the estimate.</summary>
    private enum Pull
    {
        /// <summary>In every direction: for judging readings against each other.</summary>
        Everywhere,

        /// <summary>Only in directions that the readings see less well than the prior does: what is seen is not pulled.</summary>
        WhereBlind,
    }

    // Readings are set aside one at a time, the one whose loss mends most, while the rest still contradict each other.
    private static (List<Taken> Kept, List<Taken> Again) SetAside(StandingJoint joint, IReadOnlyList<Taken> taken)
    {
        List<Taken> kept = [.. taken];
        List<Taken> again = [];
        while (3 <= kept.Count && again.Count < Math.Max(1, taken.Count / 4))
        {
            var all = Solve(joint, kept, Pull.Everywhere).Misfit;
            if (all < Doubt)
                break;
            var (worst, gain) = (-1, 0.0);
            for (var i = 0; i < kept.Count; i++)
            {
                var without = Solve(joint, [.. kept.Where((_, k) => k != i)], Pull.Everywhere).Misfit;
                if (gain < all - without)
                    (worst, gain) = (i, all - without);
            }
            if (worst < 0 || gain < Doubt)
                break;
            again.Add(kept[worst]);
            kept.RemoveAt(worst);
        }
        return (kept, again);
    }

    // The reading whose taking would narrow most what is still open: unseen components first, then those whose spread is wide against their limit.
    private static Reading? BestNext(
        StandingJoint joint, FitTolerance tolerance, Solution fit, Matrix<double> posterior, List<int> unseen, List<Taken> kept, IReadOnlyList<Target> targets)
    {
        var weights = new double[6];
        for (var i = 0; i < 6; i++)
        {
            if (i == 5 && joint.Joint.RollIsFree)
                continue;
            var limit = i switch
            {
                < 2 => tolerance.Shift.Value,
                2 => tolerance.Gap.Value,
                5 => tolerance.Roll.Value,
                _ => tolerance.Tilt.Value,
            };
            var open = PoseError.Prior[i] / limit;
            var spread = Math.Sqrt(posterior[i, i]) * open;
            if (unseen.Contains(i))
                weights[i] = 1e3;
            else if (unseen.Count == 0 && 0.5 < spread)
                weights[i] = open * open;
        }
        if (!weights.Any(w => 0 < w))
            return null;
        Reading? best = null;
        var most = 0.0;
        Span<double> slope = stackalloc double[6];
        foreach (var target in targets)
        {
            if (kept.Exists(k => k.Reading == target.Reading))
                continue;
            Targets.Slopes(target.Reading, joint, fit.Error, slope);
            var row = Vector<double>.Build.Dense(6);
            for (var i = 0; i < 6; i++)
                row[i] = slope[i] * PoseError.Prior[i] / target.Reading.Sd;
            var seen = posterior * row;
            var gain = 0.0;
            for (var i = 0; i < 6; i++)
                gain += weights[i] * seen[i] * seen[i] / (1 + (row * seen));
            if (most + 1e-12 < gain)
                (best, most) = (target.Reading, gain);
        }
        return best;
    }

    /// <summary>A solved error with what the readings say about each direction, all in units of the prior.</summary>
    private sealed record Solution(PoseError Error, double Misfit, Matrix<double> Directions, IReadOnlyList<double> Strength)
    {
        /// <summary>Below this a direction is seen less well than it was known before.</summary>
        public const double Blind = 1;

        public Matrix<double> Covariance(bool everyPrior)
        {
            var spread = Vector<double>.Build.Dense(6, k => 1 / (Strength[k] + (everyPrior || Strength[k] < Blind ? 1 : 0)));
            return Directions * Matrix<double>.Build.DenseOfDiagonalVector(spread) * Directions.Transpose();
        }
    }

    // Gauss-Newton on the full readings from no error, in units of the prior; steps are halved while they make the fit worse.
    private static Solution Solve(StandingJoint joint, IReadOnlyList<Taken> taken, Pull pull)
    {
        var u = new double[6];
        Span<double> slope = stackalloc double[6];
        var directions = Matrix<double>.Build.DenseIdentity(6);
        var strength = new double[6];
        double[] pulls = [1, 1, 1, 1, 1, 1];
        for (var round = 0; round < 40; round++)
        {
            var normal = Matrix<double>.Build.Dense(6, 6);
            var right = new double[6];
            var error = Scaled(u);
            foreach (var t in taken)
            {
                Targets.Slopes(t.Reading, joint, error, slope);
                var off = (t.Value - t.Reading.Measure(joint, error)) / t.Spread;
                for (var i = 0; i < 6; i++)
                    slope[i] *= PoseError.Prior[i] / t.Spread;
                for (var i = 0; i < 6; i++)
                {
                    right[i] += slope[i] * off;
                    for (var k = 0; k < 6; k++)
                        normal[i, k] += slope[i] * slope[k];
                }
            }
            var evd = normal.Evd(Symmetricity.Symmetric);
            directions = evd.EigenVectors;
            for (var k = 0; k < 6; k++)
            {
                strength[k] = Math.Max(0, evd.EigenValues[k].Real);
                pulls[k] = pull == Pull.Everywhere || strength[k] < Solution.Blind ? 1 : 0;
            }
            var step = new double[6];
            for (var k = 0; k < 6; k++)
            {
                double toward = 0, here = 0;
                for (var i = 0; i < 6; i++)
                {
                    toward += directions[i, k] * right[i];
                    here += directions[i, k] * u[i];
                }
                var length = (toward - (pulls[k] * here)) / (strength[k] + pulls[k]);
                for (var i = 0; i < 6; i++)
                    step[i] += directions[i, k] * length;
            }
            var before = Misfit(joint, taken, u, directions, pulls);
            var share = 1.0;
            var next = Along(u, step, share);
            while (1e-3 < share && before + 1e-9 < Misfit(joint, taken, next, directions, pulls))
            {
                share /= 2;
                next = Along(u, step, share);
            }
            var moved = 0.0;
            for (var i = 0; i < 6; i++)
                moved = Math.Max(moved, Math.Abs(next[i] - u[i]));
            u = next;
            if (moved < 1e-9)
                break;
        }
        return new Solution(Scaled(u), Misfit(joint, taken, u, directions, pulls), directions, strength);
    }

    private static double[] Along(double[] u, double[] step, double share)
    {
        var next = new double[6];
        for (var i = 0; i < 6; i++)
            next[i] = u[i] + (share * step[i]);
        return next;
    }

    private static double Misfit(StandingJoint joint, IReadOnlyList<Taken> taken, double[] u, Matrix<double> directions, double[] pulls)
    {
        var error = Scaled(u);
        var sum = 0.0;
        foreach (var t in taken)
        {
            var off = (t.Value - t.Reading.Measure(joint, error)) / t.Spread;
            sum += off * off;
        }
        for (var k = 0; k < 6; k++)
        {
            if (pulls[k] <= 0)
                continue;
            var along = 0.0;
            for (var i = 0; i < 6; i++)
                along += directions[i, k] * u[i];
            sum += pulls[k] * along * along;
        }
        return sum;
    }

    private static PoseError Scaled(double[] u)
    {
        Span<double> e = stackalloc double[6];
        for (var i = 0; i < 6; i++)
            e[i] = u[i] * PoseError.Prior[i];
        return PoseError.From(e);
    }
}
