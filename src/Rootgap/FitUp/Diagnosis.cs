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
/// <param name="Verdict">What the readings allow to be said.</param>
/// <param name="Outside">Readings that are outside their own allowance.</param>
/// <param name="Again">Readings that do not agree with the others, worst first: left out, and to be taken again.</param>
/// <param name="Alike">Readings that could be the wrong ones just as well: to be taken again too.</param>
/// <param name="Next">The readings not yet taken that together would show most, at most three, the best first; none when enough is seen.</param>
/// <param name="Doubtful">What is left does not fit together, and no single reading explains it.</param>
/// <param name="Residuals">Reading minus what the error found explains, in the readings' order; mm or radians.</param>
public sealed record Diagnosis(
    PoseError Error, IReadOnlyList<double> Sd, IReadOnlyList<int> Unseen, Verdict Verdict, IReadOnlyList<Taken> Outside,
    IReadOnlyList<Taken> Again, IReadOnlyList<Taken> Alike, IReadOnlyList<Reading> Next, bool Doubtful, IReadOnlyList<double> Residuals)
{
    // A reading is doubted when leaving it out improves the fit by more than its own 3.3 standard deviations squared (one in a thousand by chance).
    private const double Doubt = 3.3 * 3.3;

    // Two readings explain a contradiction alike unless one is twenty times as likely: 2 ln 20.
    private const double Alikeness = 6;

    /// <summary>Each component seen is inside, each reading too, and all was seen.</summary>
    public bool Within => Verdict == Verdict.Within;

    /// <summary>The error that is kept when the joint is tacked: what nothing saw counts as none.</summary>
    public PoseError Kept => Seen(Error, Unseen);

    public static Diagnosis Of(StandingJoint joint, FitTolerance tolerance, IReadOnlyList<Taken> taken, IReadOnlyList<Target> targets)
    {
        // The same thing read twice with different figures is a contradiction: neither counts.
        var twice = taken.GroupBy(t => t.Reading).Where(g => g.Max(t => t.Value) - g.Min(t => t.Value) > 1e-9).SelectMany(g => g).ToList();
        var once = taken.Except(twice).GroupBy(t => t.Reading).Select(g => g.First()).ToList();
        var (kept, again, alike) = SetAside(joint, once);
        var fit = Solve(joint, kept, Pull.WhereBlind);
        var spread = fit.Spread;
        List<int> unseen = [];
        var sd = new double[6];
        for (var i = 0; i < 6; i++)
        {
            var own = Math.Sqrt(spread[i, i]);
            if (fit.IsUnseen(i))
            {
                unseen.Add(i);
                // What nothing sees is known as well as before.
                own = 1;
            }
            else
            {
                // Seen and unseen are told apart with the prior counted in, the spread without it: beside the half-way mark they differ by a tenth at most.
                own = Math.Min(0.5, own);
            }

            sd[i] = PoseError.Prior[i] * own;
        }

        var residuals = taken.Select(t => t.Value - t.Reading.Measure(joint, fit.Error)).ToList();
        var outside = taken.Where(t => !(targets.FirstOrDefault(g => g.Reading == t.Reading) ?? Targets.Of(t.Reading, joint, tolerance)).Allows(t.Value)).ToList();
        var doubtful = Disagree(joint, kept);
        var open = unseen.Exists(i => i != 5 || !joint.Joint.RollIsFree);
        var verdict = taken.Count == 0 ? Verdict.NothingRead
            : !tolerance.Holds(Seen(fit.Error, unseen)) || outside.Count > 0 || again.Count > 0 || twice.Count > 0 || doubtful ? Verdict.NotWithin
            : open ? Verdict.AsFarAsRead : Verdict.Within;
        return new Diagnosis(
            fit.Error, sd, unseen, verdict, outside, [.. twice, .. again], alike,
            BestNext(joint, tolerance, fit, unseen, kept, targets), doubtful, residuals);
    }

    // An unseen component says nothing either way.
    private static PoseError Seen(in PoseError e, IReadOnlyList<int> unseen)
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
    private static (List<Taken> Kept, List<Taken> Again, List<Taken> Alike) SetAside(StandingJoint joint, List<Taken> taken)
    {
        List<Taken> kept = [.. taken];
        List<Taken> again = [];
        List<Taken> alike = [];
        var mended = new double[taken.Count];
        while (3 <= kept.Count && again.Count < Math.Max(1, taken.Count / 4))
        {
            var all = Solve(joint, kept, Pull.Everywhere);
            var gains = Gains(joint, kept, all);
            var (worst, gain) = (-1, 0.0);
            Array.Fill(mended, 0);
            for (var i = 0; i < kept.Count; i++)
            {
                // The straight-line guess says which are worth solving again.
                if (gains[i] < Doubt / 2)
                    continue;
                var without = Solve(joint, [.. kept.Where((_, k) => k != i)], Pull.Everywhere).Misfit;
                mended[i] = all.Misfit - without;
                if (gain < mended[i])
                    (worst, gain) = (i, mended[i]);
            }
            if (worst < 0 || gain < Doubt)
                break;
            again.Add(kept[worst]);
            for (var i = 0; i < kept.Count; i++)
            {
                if (i != worst && Doubt <= mended[i] && gain - Alikeness < mended[i])
                    alike.Add(kept[i]);
            }
            kept.RemoveAt(worst);
        }
        return (kept, again, [.. alike.Except(again)]);
    }

    // A sum of squares beyond its mean by over 3.3 of its own standard deviations (chi-squared, by Wilson and Hilferty).
    private static bool Disagree(StandingJoint joint, List<Taken> kept)
    {
        if (kept.Count == 0)
            return false;
        var share = 2.0 / (9 * kept.Count);
        var limit = kept.Count * Math.Pow(1 - share + (3.3 * Math.Sqrt(share)), 3);
        return limit < Solve(joint, kept, Pull.Everywhere).Misfit;
    }

    // How much leaving each reading out mends the fit, to first order: its misfit over what the others leave it.
    private static double[] Gains(StandingJoint joint, List<Taken> kept, Solution fit)
    {
        var spread = fit.Spread;
        var gains = new double[kept.Count];
        Span<double> slope = stackalloc double[6];
        for (var n = 0; n < kept.Count; n++)
        {
            var t = kept[n];
            Targets.Slopes(t.Reading, joint, fit.Error, slope);
            var row = Vector<double>.Build.Dense(6);
            for (var i = 0; i < 6; i++)
                row[i] = slope[i] * PoseError.Prior[i] / t.Spread;
            var off = (t.Value - t.Reading.Measure(joint, fit.Error)) / t.Spread;
            gains[n] = off * off / Math.Max(1e-6, 1 - (row * (spread * row)));
        }
        return gains;
    }

    private const int Proposed = 3;

    // The readings whose taking would narrow most what is still open, as a set: after the first the next is chosen as if that one were taken.
    private static List<Reading> BestNext(
        StandingJoint joint, FitTolerance tolerance, Solution fit, List<int> unseen, List<Taken> kept, IReadOnlyList<Target> targets)
    {
        List<Reading> next = [];
        List<Taken> with = [.. kept];
        var posterior = fit.WithPrior;
        var open = unseen;
        Span<double> slope = stackalloc double[6];
        while (next.Count < Proposed && BestNext(joint, tolerance, fit, posterior, open, with, targets) is { } best)
        {
            next.Add(best);
            with.Add(new(best, 0));
            slope.Clear();
            Targets.Slopes(best, joint, fit.Error, slope);
            var row = Vector<double>.Build.Dense(6);
            for (var i = 0; i < 6; i++)
                row[i] = slope[i] * PoseError.Prior[i] / best.Sd;
            var seen = posterior * row;
            posterior -= seen.OuterProduct(seen) / (1 + (row * seen));
            var now = posterior;
            open = [.. open.Where(i => 0.25 < now[i, i])];
        }

        return next;
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

    /// <summary>A solved error, with what the readings say about it (information) and where the prior was needed, all in units of the prior.</summary>
    private sealed record Solution(double[] Scaled, double Misfit, Matrix<double> AtNoError, Matrix<double> Information, Matrix<double> Hold)
    {
        public PoseError Error => Unscaled(Scaled);

        /// <summary>Spread of the estimate as it was made.</summary>
        public Matrix<double> Spread => (Information + Hold).Inverse();

        /// <summary>Spread with the prior in every direction, as the rule for unseen components has it: the larger of the one where the part
        /// should be and the one where it is. What is seen only because the part happens to be tilted is not relied on.</summary>
        public Matrix<double> WithPrior
        {
            get
            {
                var (drawn, found) = ((AtNoError + Whole).Inverse(), (Information + Whole).Inverse());
                return drawn.Diagonal().Sum() < found.Diagonal().Sum() ? found : drawn;
            }
        }

        /// <summary>Whether component <paramref name="i"/> stays unseen.</summary>
        public bool IsUnseen(int i) => 0.25 < Math.Max((AtNoError + Whole).Inverse()[i, i], (Information + Whole).Inverse()[i, i]);
    }

    private static readonly Matrix<double> Whole = Matrix<double>.Build.DenseIdentity(6);
    private static readonly Matrix<double> Nothing = Matrix<double>.Build.Dense(6, 6);

    private static Solution Solve(StandingJoint joint, IReadOnlyList<Taken> taken, Pull pull)
    {
        var none = new double[6];
        var (atNoError, _) = Linear(joint, taken, none);
        if (pull == Pull.Everywhere)
            return Descend(joint, taken, none, atNoError, Whole, widen: false);
        var (hold, blind) = Blind(atNoError);
        var held = Descend(joint, taken, none, atNoError, hold, widen: true);
        return Released(joint, taken, held, blind);
    }

    // A part that leans shows, by that, a little of a turn that it hides when straight, too little to rely on with a tape's and a gauge's
    // spread. Only readings that agree with each other a hundred times better than that are taken at their word; the component is still called unseen.
    private static Solution Released(StandingJoint joint, IReadOnlyList<Taken> taken, Solution held, IReadOnlyList<Vector<double>> blind)
    {
        if (taken.Count <= 6 || blind.Count == 0 || taken.Count < Misfit(joint, taken, held.Scaled, Nothing))
            return held;
        var (best, least) = (held, 1e-4 * taken.Count);
        foreach (var direction in blind)
        {
            foreach (var way in (double[])[1, -1])
            {
                var start = (Vector<double>.Build.DenseOfArray(held.Scaled) + (direction * way)).ToArray();
                var free = Descend(joint, taken, start, held.AtNoError, Whole * 1e-9, widen: false);
                var misfit = Misfit(joint, taken, free.Scaled, Nothing);
                if (misfit < least && free.Scaled.All(v => Math.Abs(v) < 2))
                    (best, least) = (free with { Hold = held.Hold }, misfit);
            }
        }
        return best;
    }

    // Gauss-Newton on the full readings, in units of the prior; steps are halved while they make the fit worse.
    private static Solution Descend(StandingJoint joint, IReadOnlyList<Taken> taken, double[] start, Matrix<double> atNoError, Matrix<double> hold, bool widen)
    {
        var u = start;
        var (information, right) = Linear(joint, taken, u);
        for (var round = 0; round < 40; round++)
        {
            // Directions that the readings lost on the way, as a part leans past what they see, are held as well.
            if (widen)
                hold += Blind(information + hold).Hold;
            var step = (information + hold).Solve(right - (hold * Vector<double>.Build.DenseOfArray(u))).AsArray();
            var before = Misfit(joint, taken, u, hold);
            var share = 1.0;
            var next = Along(u, step, share);
            while (1e-3 < share && before + 1e-9 < Misfit(joint, taken, next, hold))
            {
                share /= 2;
                next = Along(u, step, share);
            }
            var moved = 0.0;
            for (var i = 0; i < 6; i++)
                moved = Math.Max(moved, Math.Abs(next[i] - u[i]));
            u = next;
            (information, right) = Linear(joint, taken, u);
            if (moved < 1e-9)
                break;
        }
        return new Solution(u, Misfit(joint, taken, u, hold), atNoError, information, hold);
    }

    // What the readings say near an error: the information matrix and the pull toward a better one.
    private static (Matrix<double> Information, Vector<double> Right) Linear(StandingJoint joint, IReadOnlyList<Taken> taken, double[] u)
    {
        var information = Matrix<double>.Build.Dense(6, 6);
        var right = Vector<double>.Build.Dense(6);
        var error = Unscaled(u);
        Span<double> slope = stackalloc double[6];
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
                    information[i, k] += slope[i] * slope[k];
            }
        }
        return (information, right);
    }

    /// <summary>A direction with less information than this is known less well from the readings than it was before them.</summary>
    private const double Seeing = 1;

    // The prior in the directions that the readings do not see, and these directions.
    private static (Matrix<double> Hold, IReadOnlyList<Vector<double>> Directions) Blind(Matrix<double> information)
    {
        var evd = information.Evd(Symmetricity.Symmetric);
        var hold = Matrix<double>.Build.Dense(6, 6);
        List<Vector<double>> directions = [];
        for (var k = 0; k < 6; k++)
        {
            if (Seeing <= evd.EigenValues[k].Real)
                continue;
            var direction = evd.EigenVectors.Column(k);
            directions.Add(direction);
            hold += direction.OuterProduct(direction);
        }
        return (hold, directions);
    }

    private static double[] Along(double[] u, double[] step, double share)
    {
        var next = new double[6];
        for (var i = 0; i < 6; i++)
            next[i] = u[i] + (share * step[i]);
        return next;
    }

    private static double Misfit(StandingJoint joint, IReadOnlyList<Taken> taken, double[] u, Matrix<double> hold)
    {
        var error = Unscaled(u);
        var sum = 0.0;
        foreach (var t in taken)
        {
            var off = (t.Value - t.Reading.Measure(joint, error)) / t.Spread;
            sum += off * off;
        }
        for (var i = 0; i < 6; i++)
        {
            for (var k = 0; k < 6; k++)
                sum += u[i] * hold[i, k] * u[k];
        }
        return sum;
    }

    private static PoseError Unscaled(double[] u)
    {
        Span<double> e = stackalloc double[6];
        for (var i = 0; i < 6; i++)
            e[i] = u[i] * PoseError.Prior[i];
        return PoseError.From(e);
    }
}
