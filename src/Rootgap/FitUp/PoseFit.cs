using MathNet.Numerics.LinearAlgebra;

namespace Rootgap.FitUp;

/// <summary>Errors of some bodies, six in a row for each: mm and radians, in the order of <see cref="PoseError.Names"/>.</summary>
internal delegate double Measured(ReadOnlySpan<double> errors);

/// <summary>Something read, as a function of the errors of the bodies that it touches.</summary>
/// <param name="Bodies">Indices of the bodies whose errors change it.</param>
/// <param name="Measure">What would be read with given errors, mm or radians.</param>
/// <param name="Value">What was read.</param>
/// <param name="Spread">How well, one standard deviation.</param>
internal sealed record Sighting(IReadOnlyList<int> Bodies, Measured Measure, double Value, double Spread)
{
    /// <summary>How the reading changes with each error, per mm and per radian.</summary>
    public void Slopes(Span<double> at, Span<double> slopes)
    {
        slopes.Clear();
        foreach (var body in Bodies)
        {
            for (var i = 6 * body; i < (6 * body) + 6; i++)
            {
                // Central differences: the second-order parts cancel; steps well above rounding and far below what bends the function.
                var step = i % 6 < 3 ? 1e-3 : 1e-6;
                var here = at[i];
                at[i] = here + step;
                var more = Measure(at);
                at[i] = here - step;
                slopes[i] = (more - Measure(at)) / (2 * step);
                at[i] = here;
            }
        }
    }
}

/// <summary>
/// The errors that explain readings best: weighted least squares on the exact geometry, with weak priors that hold only what the readings see badly, and with
/// readings set aside that contradict the others.
/// </summary>
internal sealed class PoseFit
{
    // A reading is doubted when leaving it out improves the fit by more than its own 3.3 standard deviations squared (one in a thousand by chance).
    private const double Doubt = 3.3 * 3.3;

    // Two readings explain a contradiction alike unless one is twenty times as likely: 2 ln 20.
    private const double Alikeness = 6;

    /// <summary>A direction with less information than this is known less well from the readings than it was before them.</summary>
    private const double Seeing = 1;

    private readonly int size;
    private readonly Matrix<double> whole, nothing;
    private readonly Solution solution;

    private PoseFit(IReadOnlyList<Sighting> read, int bodies)
    {
        size = 6 * bodies;
        whole = Matrix<double>.Build.DenseIdentity(size);
        nothing = Matrix<double>.Build.Dense(size, size);
        (Kept, Again, Alike) = SetAside(read);
        solution = Solve(Kept, Pull.WhereBlind);
        Errors = Unscaled(solution.Scaled);
        Sd = new double[size];
        var (spread, open) = ((solution.Information + solution.Hold).Inverse(), OpenBy(solution));
        for (var i = 0; i < size; i++)
        {
            // What nothing sees is known as well as before. Seen and unseen are told apart with the prior counted in, the spread without it: beside the half-way mark they differ by a tenth at most.
            Sd[i] = Prior(i) * (open[i] ? 1 : Math.Min(0.5, Math.Sqrt(spread[i, i])));
        }

        Unseen = [.. Enumerable.Range(0, size).Where(i => open[i])];
        Disagree = IsBeyondChance(Kept);
        WithPrior = Wider(solution);
    }

    /// <summary>Six for each body, mm and radians.</summary>
    public double[] Errors { get; }

    /// <summary>One standard deviation of each.</summary>
    public double[] Sd { get; }

    /// <summary>Errors that the readings do not see: standard deviation over half of what was thought likely beforehand.</summary>
    public IReadOnlyList<int> Unseen { get; }

    /// <summary>Readings that count.</summary>
    public IReadOnlyList<Sighting> Kept { get; }

    /// <summary>Readings that do not agree with the others, worst first.</summary>
    public IReadOnlyList<Sighting> Again { get; }

    /// <summary>Readings that could be the wrong ones just as well.</summary>
    public IReadOnlyList<Sighting> Alike { get; }

    /// <summary>What is left does not fit together, and no single reading explains it.</summary>
    public bool Disagree { get; }

    /// <summary>Spread with the prior in every direction, in units of the prior.</summary>
    private Matrix<double> WithPrior { get; }

    public static PoseFit Of(IReadOnlyList<Sighting> read, int bodies) => new(read, bodies);

    private static double Prior(int i) => PoseError.Prior[i % 6];

    /// <summary>The readings whose taking would narrow most what is still open, as a set: after the first the next is chosen as if that one were taken.</summary>
    /// <param name="open">Reading what could be taken; its index is the answer.</param>
    /// <param name="limits">How much of each error is allowed; infinite where it does not matter.</param>
    /// <param name="most">At most so many.</param>
    public IReadOnlyList<int> Next(IReadOnlyList<Sighting> open, IReadOnlyList<double> limits, int most)
    {
        var rows = open.Select(s => Row(s, [.. Errors])).ToList();
        List<int> next = [];
        var posterior = WithPrior;
        IReadOnlyList<int> unseen = Unseen;
        while (next.Count < most && Best(rows, next, posterior, unseen, limits) is { } best)
        {
            next.Add(best);
            var seen = posterior * rows[best];
            posterior -= seen.OuterProduct(seen) / (1 + (rows[best] * seen));
            var now = posterior;
            unseen = [.. unseen.Where(i => 0.25 < now[i, i])];
        }

        return next;
    }

    // Unseen components first, then those whose spread is wide against their limit.
    private int? Best(List<Vector<double>> rows, List<int> taken, Matrix<double> posterior, IReadOnlyList<int> unseen, IReadOnlyList<double> limits)
    {
        var matters = unseen.Where(i => double.IsFinite(limits[i])).ToList();
        var weights = new double[size];
        for (var i = 0; i < size; i++)
        {
            if (!double.IsFinite(limits[i]))
                continue;
            var open = Prior(i) / limits[i];
            if (matters.Contains(i))
                weights[i] = 1e3;
            else if (matters.Count == 0 && 0.5 < Math.Sqrt(posterior[i, i]) * open)
                weights[i] = open * open;
        }

        int? best = null;
        var most = 0.0;
        for (var n = 0; n < rows.Count && weights.Any(w => w > 0); n++)
        {
            if (taken.Contains(n))
                continue;
            var seen = posterior * rows[n];
            var gain = 0.0;
            for (var i = 0; i < size; i++)
                gain += weights[i] * seen[i] * seen[i] / (1 + (rows[n] * seen));
            if (most + 1e-12 < gain)
                (best, most) = (n, gain);
        }

        return best;
    }

    // Slopes in units of the prior and of the reading's spread.
    private Vector<double> Row(Sighting s, double[] errors)
    {
        var row = new double[size];
        s.Slopes(errors, row);
        for (var i = 0; i < size; i++)
            row[i] *= Prior(i) / s.Spread;
        return Vector<double>.Build.Dense(row);
    }

    /// <summary>Where the prior holds the estimate.</summary>
    private enum Pull
    {
        /// <summary>In every direction: for judging readings against each other.</summary>
        Everywhere,

        /// <summary>Only in directions that the readings see less well than the prior does: what is seen is not pulled.</summary>
        WhereBlind,
    }

    /// <summary>Solved errors, with what the readings say about them (information) and where the prior was needed, all in units of the prior.</summary>
    private sealed record Solution(double[] Scaled, double Misfit, Matrix<double> AtNoError, Matrix<double> Information, Matrix<double> Hold);

    // The larger of the spread where the bodies should be and of that where they are: what is seen only because a body happens to lean is not relied on.
    private Matrix<double> Wider(Solution s)
    {
        var (drawn, found) = ((s.AtNoError + whole).Inverse(), (s.Information + whole).Inverse());
        return drawn.Diagonal().Sum() < found.Diagonal().Sum() ? found : drawn;
    }

    private bool[] OpenBy(Solution s)
    {
        var (drawn, found) = ((s.AtNoError + whole).Inverse(), (s.Information + whole).Inverse());
        return [.. Enumerable.Range(0, size).Select(i => 0.25 < Math.Max(drawn[i, i], found[i, i]))];
    }

    // Readings are set aside one at a time, the one whose loss mends most, while the rest still contradict each other.
    private (List<Sighting> Kept, List<Sighting> Again, List<Sighting> Alike) SetAside(IReadOnlyList<Sighting> read)
    {
        List<Sighting> kept = [.. read];
        List<Sighting> again = [], alike = [];
        var mended = new double[read.Count];
        while (3 <= kept.Count && again.Count < Math.Max(1, read.Count / 4))
        {
            var all = Solve(kept, Pull.Everywhere);
            var gains = Gains(kept, all);
            var (worst, gain) = (-1, 0.0);
            Array.Fill(mended, 0);
            for (var i = 0; i < kept.Count; i++)
            {
                // The straight-line guess says which are worth solving again.
                if (gains[i] < Doubt / 2)
                    continue;
                var without = Solve([.. kept.Where((_, k) => k != i)], Pull.Everywhere).Misfit;
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
    private bool IsBeyondChance(IReadOnlyList<Sighting> kept)
    {
        if (kept.Count == 0)
            return false;
        var share = 2.0 / (9 * kept.Count);
        var limit = kept.Count * Math.Pow(1 - share + (3.3 * Math.Sqrt(share)), 3);
        return limit < Solve(kept, Pull.Everywhere).Misfit;
    }

    // How much leaving each reading out mends the fit, to first order: its misfit over what the others leave it.
    private double[] Gains(List<Sighting> kept, Solution fit)
    {
        var spread = (fit.Information + fit.Hold).Inverse();
        var errors = Unscaled(fit.Scaled);
        var gains = new double[kept.Count];
        for (var n = 0; n < kept.Count; n++)
        {
            var row = Row(kept[n], errors);
            var off = (kept[n].Value - kept[n].Measure(errors)) / kept[n].Spread;
            gains[n] = off * off / Math.Max(1e-6, 1 - (row * (spread * row)));
        }

        return gains;
    }

    private Solution Solve(IReadOnlyList<Sighting> read, Pull pull)
    {
        var none = new double[size];
        var (atNoError, _) = Linear(read, none);
        if (pull == Pull.Everywhere)
            return Descend(read, none, atNoError, whole, widen: false);
        var (hold, blind) = Blind(atNoError);
        var held = Descend(read, none, atNoError, hold, widen: true);
        return Released(read, held, blind);
    }

    // A part that leans shows, by that, a little of a turn that it hides when straight, too little to rely on with a tape's and a gauge's
    // spread. Only readings that agree with each other a hundred times better than that are taken at their word; the component is still called unseen.
    private Solution Released(IReadOnlyList<Sighting> read, Solution held, IReadOnlyList<Vector<double>> blind)
    {
        if (read.Count <= size || blind.Count == 0 || read.Count < Misfit(read, held.Scaled, nothing))
            return held;
        var (best, least) = (held, 1e-4 * read.Count);
        foreach (var direction in blind)
        {
            foreach (var way in (double[])[1, -1])
            {
                var start = (Vector<double>.Build.DenseOfArray(held.Scaled) + (direction * way)).ToArray();
                var free = Descend(read, start, held.AtNoError, whole * 1e-9, widen: false, wanted: least);
                var misfit = Misfit(read, free.Scaled, nothing);
                if (misfit < least && free.Scaled.All(v => Math.Abs(v) < 2))
                    (best, least) = (free with { Hold = held.Hold }, misfit);
            }
        }

        return best;
    }

    // Gauss-Newton on the full readings, in units of the prior; steps are halved while they make the fit worse. A misfit over what is wanted is of no use.
    private Solution Descend(IReadOnlyList<Sighting> read, double[] start, Matrix<double> atNoError, Matrix<double> hold, bool widen, double wanted = double.PositiveInfinity)
    {
        var u = start;
        var (information, right) = Linear(read, u);
        var still = 0;
        for (var round = 0; round < 40 && still < 2; round++)
        {
            // Directions that the readings lost on the way, as a part leans past what they see, are held as well.
            if (widen)
                hold += Blind(information + hold).Hold;
            var step = (information + hold).Solve(right - (hold * Vector<double>.Build.DenseOfArray(u))).AsArray();
            var before = Misfit(read, u, hold);
            var share = 1.0;
            var next = Along(u, step, share);
            while (1e-3 < share && before + 1e-9 < Misfit(read, next, hold))
            {
                share /= 2;
                next = Along(u, step, share);
            }

            var moved = 0.0;
            for (var i = 0; i < size; i++)
                moved = Math.Max(moved, Math.Abs(next[i] - u[i]));
            // Slopes taken by differences let the last digits wander, and along what nothing sees there is no end: a fit that mends no more is as good as it gets, and one that mends too slowly to be wanted is given up.
            still = before - Misfit(read, next, hold) < (before < wanted ? 1e-12 : 1e-6) * before ? still + 1 : 0;
            u = next;
            (information, right) = Linear(read, u);
            if (moved < 1e-9)
                break;
        }

        return new Solution(u, Misfit(read, u, hold), atNoError, information, hold);
    }

    // What the readings say near an error: the information matrix and the pull toward a better one.
    private (Matrix<double> Information, Vector<double> Right) Linear(IReadOnlyList<Sighting> read, double[] u)
    {
        var information = Matrix<double>.Build.Dense(size, size);
        var right = Vector<double>.Build.Dense(size);
        var errors = Unscaled(u);
        foreach (var s in read)
        {
            var row = Row(s, errors);
            var off = (s.Value - s.Measure(errors)) / s.Spread;
            for (var i = 0; i < size; i++)
            {
                right[i] += row[i] * off;
                for (var k = 0; k < size && row[i] != 0; k++)
                    information[i, k] += row[i] * row[k];
            }
        }

        return (information, right);
    }

    // The prior in the directions that the readings do not see, and these directions.
    private (Matrix<double> Hold, IReadOnlyList<Vector<double>> Directions) Blind(Matrix<double> information)
    {
        var evd = information.Evd(Symmetricity.Symmetric);
        var hold = Matrix<double>.Build.Dense(size, size);
        List<Vector<double>> directions = [];
        for (var k = 0; k < size; k++)
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
        var next = new double[u.Length];
        for (var i = 0; i < u.Length; i++)
            next[i] = u[i] + (share * step[i]);
        return next;
    }

    private double Misfit(IReadOnlyList<Sighting> read, double[] u, Matrix<double> hold)
    {
        var errors = Unscaled(u);
        var sum = 0.0;
        foreach (var s in read)
        {
            var off = (s.Value - s.Measure(errors)) / s.Spread;
            sum += off * off;
        }

        for (var i = 0; i < size; i++)
        {
            for (var k = 0; k < size; k++)
                sum += u[i] * hold[i, k] * u[k];
        }

        return sum;
    }

    private static double[] Unscaled(double[] u) => [.. u.Select((v, i) => v * Prior(i))];
}
