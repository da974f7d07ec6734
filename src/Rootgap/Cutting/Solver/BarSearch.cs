namespace Rootgap.Cutting.Solver;

/// <summary>What the search found: the best packing, and how good any packing can be.</summary>
/// <param name="Best">Null when none was found.</param>
/// <param name="Bound">
/// Lower bound of each objective: of the first one over all packings, of each next one over those that are no worse than the best packing in the
/// objectives before.
/// </param>
/// <param name="Proven">The packing is best in all objectives, in their order.</param>
/// <param name="Impossible">Proven: the pieces do not fit into the bars at hand.</param>
/// <param name="Certificates">The prices that carry the bound.</param>
internal sealed record SearchResult(Packing? Best, long[] Bound, bool Proven, bool Impossible, IReadOnlyList<Certificate> Certificates);

/// <summary>
/// Exact search by numbers of bars: the best numbers that no certificate and no exhaustive search has ruled out are tried first.
/// Either the pieces are packed into them - then the plan is proven best - or the relaxation gives a new price certificate, or
/// exhaustive search rules them out. What can't be settled in time stays as the bound, and good plans near it are looked for.
/// </summary>
internal sealed partial class BarSearch(PackingProblem task, Effort effort, Action<SearchResult>? progress = null)
{
    private const int ManyKinds = 500; // beyond, filling is tried hard before the relaxation
    private const int MostKinds = 1500; // beyond, the relaxation is too large
    private const int LargeBasis = 300; // beyond, a basis is too large to keep many of
    private const int MostListed = 20_000; // patterns that a plan can contain
    private const int MostListedLate = 600_000; // once the quick ways have failed
    private const int Corners = 10; // best prices that are looked for, where they are many
    private const double LeanMost = 1e-3; // how far demands are shifted for it: so little that what is best stays nearly so
    private const int MostPreferred = 8; // lengths that plans are begun with
    private const int MostAtLeisure = 5000; // pieces up to which all beginnings are made, whatever the time
    private const int FewestOrders = 4;
    private const int MostUnsettled = 6; // so many numbers of bars are left open before plans near the bound are looked for

    private readonly PackingProblem problem = task.WithoutIdleBars();
    private readonly Knapsack knapsack = new();
    private BarCounts counts = null!; // made when the search starts
    private Packing? best;
    private long[] bestValue = [];
    private PatternLp? lp;
    private Certificate? guide; // prices of the last relaxation that could be met: they rule nothing out, but show what may be wasted
    private bool single; // the relaxation of the one type is solved to its end

    /// <summary>Part of a larger search: it looks for no plans near the bound.</summary>
    public bool IsPart { get; init; }

    public SearchResult Run()
    {
        if (problem.Pieces == 0)
        {
            return new SearchResult(new Packing([]), new long[problem.Goals.Length], true, false, []);
        }

        counts = new BarCounts(problem);
        counts.Add(ByLength());
        Start();
        var (isProven, isImpossible) = Settle(problem.Types == 1 ? effort : effort.Part(0.5));
        if (problem.Types == 1 && !isProven && !isImpossible && !IsPart && !effort.Spent)
        {
            // What was left open while there was no plan near it: once more, with all the time that is left.
            counts.Reopen();
            (isProven, isImpossible) = Settle(effort);
        }

        if (!isProven && !isImpossible && !IsPart)
        {
            if (best is not null || problem.Types > 1)
            {
                Approach();
            }

            if (best is not null)
            {
                Regroup();
            }

            isProven = best is not null && bestValue.AsSpan().SequenceEqual(Bound());
        }

        return Result(isProven, isImpossible);
    }

    // Settles numbers of bars, the best first, until a plan is proven best, or time is over, or too many stay open.
    private (bool Proven, bool Impossible) Settle(Effort within)
    {
        var open = 0;
        while (true)
        {
            var (n, bound, exact) = counts.Next();
            if (n is null)
            {
                return (open == 0 && exact && best is not null, open == 0 && exact && best is null);
            }

            progress?.Invoke(new(best, bound, false, false, []));
            if (best is not null && !PackingProblem.IsLess(bound, bestValue))
            {
                return (open == 0 && exact, false);
            }

            open += exact ? 0 : 1;
            if (within.Spent || MostUnsettled < open)
            {
                return (false, false);
            }

            var verdict = Try(n, within, last: best is not null && problem.Types == 1 && n[0] + 1 >= best.CountByType(1)[0]);
            if (verdict == Verdict.Packed && open == 0)
            {
                return (true, false);
            }

            if (verdict == Verdict.Unknown)
            {
                open++;
                counts.Skip(n);
            }
        }
    }

    private SearchResult Result(bool proven, bool impossible) =>
        new(best, proven ? bestValue : best is null ? new long[problem.Goals.Length] : Bound(), proven, impossible, counts.Certificates);

    private long[] Bound()
    {
        var bound = new long[problem.Goals.Length];
        var caps = new List<(long[], long)>();
        for (var g = 0; g < bound.Length; g++)
        {
            bound[g] = Math.Min(bestValue[g], counts.Least(problem.Goals[g], caps));
            caps.Add((problem.Goals[g], bestValue[g]));
        }

        return bound;
    }

    private enum Verdict { Packed, RuledOut, Unknown }

    // Every bar by the length that it can be filled to at most.
    private Certificate ByLength()
    {
        var worth = new long[problem.Types];
        var same = new Dictionary<long, long>();
        for (var k = 0; k < worth.Length; k++)
        {
            if (problem.Allowed is null && same.TryGetValue(problem.Capacity[k], out var known))
            {
                worth[k] = known;
                continue;
            }

            knapsack.Solve(problem, k, problem.Length, problem.Demand, 0, problem.Capacity[k], steps: 20_000);
            worth[k] = Math.Min(problem.Capacity[k], Math.Max(knapsack.Value, knapsack.AtMost));
            same[problem.Capacity[k]] = worth[k];
        }

        return Certificate.Of(problem, problem.Length, worth) ?? throw new InvalidOperationException("lengths are limited where they are read");
    }

    // Plans that cost nothing to find: first-fit and best-fit decreasing with each preference among the types, contents moved to better bars.
    private void Start()
    {
        var types = Enumerable.Range(0, problem.Types).ToArray();
        var orders = new List<int[]>();
        for (var g = 0; g < problem.Goals.Length; g++)
        {
            var goal = problem.Goals[g];
            orders.Add([.. types.OrderBy(k => (double)goal[k] / problem.Capacity[k]).ThenByDescending(k => problem.Capacity[k])]);
            orders.Add([.. types.OrderBy(k => goal[k]).ThenByDescending(k => problem.Capacity[k])]);
        }

        // As one does it by hand: what is at hand first, then one length that can be had in plenty; or that length alone.
        var plenty = types.Where(k => problem.Limit[k] < task.Limit[k]).Take(MostPreferred).ToList();
        foreach (var wanted in plenty.Count > 0 ? plenty : [types[0]])
        {
            foreach (var sign in (int[])[1, -1])
            {
                int[] turn = [.. types.OrderBy(k => problem.Reach?[k] ?? 0).ThenBy(k => k == wanted ? 0 : 1).ThenBy(k => sign * problem.Capacity[k])];
                orders.Add(turn);
                orders.Add([wanted, .. turn.Where(k => k != wanted)]);
            }
        }

        foreach (var (n, order) in orders.DistinctBy(o => string.Join(',', o), StringComparer.Ordinal).Index())
        {
            if (MostAtLeisure < problem.Pieces && FewestOrders <= n && best is not null && effort.Spent)
            {
                return;
            }

            Offer(GreedyFill.Decreasing(problem, order, isBestFit: false));
            Offer(GreedyFill.Decreasing(problem, order, isBestFit: true));
        }
    }

    private void Offer(Packing? packing)
    {
        if (packing is null)
        {
            return;
        }

        packing = Moving.ToBetterBars(problem, packing);
        var value = problem.ValueOf(packing.CountByType(problem.Types));
        if (best is null || PackingProblem.IsLess(value, bestValue))
        {
            best = packing;
            bestValue = value;
        }
    }
}
