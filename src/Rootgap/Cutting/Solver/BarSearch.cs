namespace Rootgap.Cutting.Solver;

/// <summary>What the search found: the best packing, and how good any packing can be.</summary>
/// <param name="Best">Null when none was found.</param>
/// <param name="First">Lower bound of the first objective.</param>
/// <param name="Second">Lower bound of the second objective among packings that reach the first bound; 0 when not known.</param>
/// <param name="Proven">The packing is best in both objectives.</param>
/// <param name="Impossible">Proven: the pieces do not fit into the bars at hand.</param>
/// <param name="Certificates">The prices that carry the bound.</param>
internal sealed record SearchResult(Packing? Best, long First, long Second, bool Proven, bool Impossible, IReadOnlyList<Certificate> Certificates);

/// <summary>
/// Exact search by numbers of bars: the best numbers that no certificate and no exhaustive search has ruled out are tried first.
/// Either the pieces are packed into them - then the plan is proven best - or the relaxation gives a new price certificate, or
/// exhaustive search rules them out. What can't be settled in time stays as the bound.
/// </summary>
internal sealed class BarSearch(PackingProblem task, Effort effort, Action<SearchResult>? progress = null)
{
    private readonly PackingProblem problem = task.WithoutIdleBars();
    private const int ManyKinds = 500; // beyond, filling is tried hard before the relaxation
    private const int MostKinds = 1500; // beyond, the relaxation is too large

    private readonly Knapsack knapsack = new();
    private BarCounts counts = null!; // made when the search starts
    private Packing? best;
    private (long First, long Second) bestValue = (long.MaxValue, long.MaxValue);
    private (long First, long Second) bound;
    private PatternLp? lp;
    private Certificate? guide; // prices of the last relaxation that could be met: they rule nothing out, but show what may be wasted
    private bool single; // the relaxation of the one type is solved to its end

    public SearchResult Run()
    {
        if (problem.Pieces == 0)
        {
            return new SearchResult(new Packing([]), 0, 0, true, false, []);
        }

        counts = new BarCounts(problem);
        counts.Add(ByLength());
        Start();
        var open = false; // some numbers of bars were left unsettled: the bound stays there
        while (true)
        {
            var (n, first, second, exact) = counts.Next();
            if (n is null)
            {
                if (!open)
                {
                    return exact && best is null ? Result(proven: false, impossible: true) : Result(proven: exact && best is not null, impossible: false);
                }

                break;
            }

            if (!open)
            {
                bound = (first, second);
                progress?.Invoke(Result(false, false));
            }

            if (best is not null && (bestValue.First < first || (bestValue.First == first && bestValue.Second <= second)))
            {
                return Result(!open && exact, false);
            }

            if (!exact)
            {
                open = true;
            }

            if (effort.Spent)
            {
                break;
            }

            var verdict = Try(n, last: best is not null && problem.Types == 1 && n[0] + 1 >= best.CountByType(1)[0]);
            if (verdict == Verdict.Packed)
            {
                if (!open)
                {
                    bound = bestValue;
                    return Result(true, false);
                }

                continue;
            }

            if (verdict == Verdict.Unknown)
            {
                open = true;
                counts.Skip(n);
            }
        }

        return Result(false, false);
    }

    private SearchResult Result(bool proven, bool impossible)
    {
        var (first, second) = proven ? bestValue : bound;
        return new SearchResult(best, first, second, proven, impossible, counts.Certificates);
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

        long total = 0;
        for (var i = 0; i < problem.Kinds; i++)
        {
            total += problem.Length[i] * problem.Demand[i];
        }

        return new Certificate(problem.Length, worth, total);
    }

    // Plans that cost nothing to find: first-fit decreasing with each preference among the types.
    private void Start()
    {
        var types = Enumerable.Range(0, problem.Types).ToArray();
        int[][] orders =
        [
            [.. types.OrderBy(k => problem.First[k]).ThenByDescending(k => problem.Capacity[k])],
            [.. types.OrderBy(k => (double)problem.First[k] / problem.Capacity[k]).ThenBy(k => (double)problem.Second[k] / problem.Capacity[k])],
            [.. types.OrderBy(k => (double)problem.Second[k] / problem.Capacity[k]).ThenByDescending(k => problem.Capacity[k])],
            [.. types.OrderBy(k => problem.Capacity[k])],
        ];
        foreach (var order in problem.Types == 1 ? orders[..1] : orders)
        {
            Offer(GreedyFill.FirstFit(problem, order));
        }
    }

    private void Offer(Packing? packing)
    {
        if (packing is null)
        {
            return;
        }

        long first = 0;
        long second = 0;
        foreach (var (pattern, times) in packing.Bars)
        {
            first += times * problem.First[pattern.Type];
            second += times * problem.Second[pattern.Type];
        }

        if (first < bestValue.First || (first == bestValue.First && second < bestValue.Second))
        {
            best = packing;
            bestValue = (first, second);
        }
    }

    private Verdict Try(int[] n, bool last)
    {
        var fill = new GreedyFill(problem);
        if (fill.Pack(problem.Demand, n, 6, effort) is { } quick)
        {
            Offer(new Packing(quick));
            return Verdict.Packed;
        }

        var share = last ? effort : effort.Part(0.5);
        if (ManyKinds < problem.Kinds)
        {
            // So many different lengths fill the bars almost without waste; the relaxation would take long and say little.
            var half = share.Part(0.6);
            for (var go = 0; go < 5 && !half.Spent; go++)
            {
                if (fill.Pack(problem.Demand, n, 4, half, seed: 11 + go, steps: 4000 << go) is { } filled)
                {
                    Offer(new Packing(filled));
                    return Verdict.Packed;
                }
            }

            if (MostKinds < problem.Kinds)
            {
                return Verdict.Unknown;
            }
        }

        var relaxed = Relax(n, share);
        if (relaxed == Verdict.RuledOut || lp is null)
        {
            return relaxed;
        }

        if (problem.Pieces <= 40)
        {
            var (packed, settled) = ExactPacking.Solve(problem, n, counts.Certificates, effort, 20_000);
            if (packed is not null)
            {
                Offer(new Packing(packed));
                return Verdict.Packed;
            }

            if (settled)
            {
                counts.RuleOut(n);
                return Verdict.RuledOut;
            }
        }

        if (lp.Complete && Dived(n, share, 3, 0, 150))
        {
            return Verdict.Packed;
        }

        // Every pattern that a plan with these bars can contain, when they are few enough to be listed.
        var list = guide is null ? null : Listed(n, guide, share);
        Certificate[] prices = guide is null ? [.. counts.Certificates] : [.. counts.Certificates, guide];
        for (var go = 0; go < 12 && !share.Spent; go++)
        {
            if (list is not null)
            {
                var cover = new CoverSearch(problem, n, list, share, 300 << (2 * Math.Min(go, 8)));
                if (cover.Run() is { } covered)
                {
                    Offer(new Packing(covered));
                    return Verdict.Packed;
                }

                if (cover.Settled)
                {
                    counts.RuleOut(n);
                    return Verdict.RuledOut;
                }
            }

            if (lp.Complete && Dived(n, share, 3 << Math.Min(go, 6), 3 << Math.Min(go, 6), 500 << go))
            {
                return Verdict.Packed;
            }

            if (fill.Pack(problem.Demand, n, 10 << Math.Min(go, 4), share, seed: 100 + go) is { } found)
            {
                Offer(new Packing(found));
                return Verdict.Packed;
            }

            if (problem.Pieces <= 200)
            {
                var (packed, settled) = ExactPacking.Solve(problem, n, prices, share, 20_000L << (2 * Math.Min(go, 8)));
                if (packed is not null)
                {
                    Offer(new Packing(packed));
                    return Verdict.Packed;
                }

                if (settled)
                {
                    counts.RuleOut(n);
                    return Verdict.RuledOut;
                }
            }
        }

        return Verdict.Unknown;
    }

    private bool Dived(int[] n, Effort share, int tries, int from, int solves)
    {
        var dive = new Dive(problem, n, share, solves);
        if (dive.Run(lp!, tries, from))
        {
            Offer(new Packing([.. dive.Packed]));
            return true;
        }

        return false;
    }

    // Solves the relaxation for these bars. Ruled out when a certificate of it says so.
    private Verdict Relax(int[] n, Effort share)
    {
        if (problem.Types == 1 && single)
        {
            return Verdict.Unknown;
        }

        guide = null;
        lp ??= new PatternLp(problem);
        if (lp.Pool.Count == 0)
        {
            Seed();
        }

        var longest = (double)problem.Capacity.Max();
        var costs = problem.Capacity.Select(c => problem.Types == 1 ? 1 : c / longest).ToArray();
        var stopped = false;
        lp.Enough = () => stopped = Certify(n);
        lp.Start(problem.Demand, problem.Types == 1 ? [PackingProblem.Plenty] : n, costs, problem.Types > 1);
        lp.Solve(share);
        lp.Enough = null;
        if (stopped)
        {
            return Verdict.RuledOut;
        }

        single = problem.Types == 1 && lp.Complete;
        guide = lp.Complete && lp.Uncovered == 0 ? Guide() : null;
        if (lp.Complete && problem.Types > 1 && 0 < lp.Uncovered)
        {
            // Not enough steel for these pieces, though the certificate of least steel does not say so: only cover counts.
            lp.Enough = () => stopped = Certify(n);
            lp.Start(problem.Demand, n, new double[problem.Types], true);
            lp.Solve(share);
            lp.Enough = null;
            if (stopped)
            {
                return Verdict.RuledOut;
            }
        }

        return Verdict.Unknown;
    }

    // Makes a certificate of the prices at hand when it rules the numbers out.
    private bool Certify(int[] n)
    {
        if (lp is null)
        {
            return false;
        }

        Int128 total = 0;
        for (var i = 0; i < problem.Kinds; i++)
        {
            total += (Int128)lp.Prices[i] * problem.Demand[i];
        }

        Int128 paid = 0;
        for (var k = 0; k < n.Length; k++)
        {
            paid += (Int128)lp.Worth[k] * n[k];
        }

        if (total <= paid || long.MaxValue / 4 < total)
        {
            return false;
        }

        var worth = new long[n.Length];
        for (var k = 0; k < n.Length; k++)
        {
            worth[k] = 0 < lp.Limit[k] ? lp.Worth[k] : Worth(k);
        }

        counts.Add(new Certificate([.. lp.Prices], worth, (long)total));
        return true;
    }

    private Certificate Guide()
    {
        long total = 0;
        for (var i = 0; i < problem.Kinds; i++)
        {
            total += lp!.Prices[i] * problem.Demand[i];
        }

        return new Certificate([.. lp!.Prices], [.. lp.Worth], total);
    }

    private List<Pattern>? Listed(int[] n, Certificate prices, Effort share)
    {
        var spare = -prices.Total;
        for (var k = 0; k < n.Length; k++)
        {
            spare += n[k] * prices.Worth[k];
        }

        var list = new List<Pattern>();
        for (var k = 0; k < n.Length; k++)
        {
            if (0 < n[k])
            {
                if (PatternList.Worthy(problem, k, prices.Prices, prices.Worth[k] - spare, 20_000 - list.Count, share) is not { } some)
                {
                    return null;
                }

                list.AddRange(some);
            }
        }

        return list;
    }

    // A bar of a type that is not among these numbers: what it could hold at these prices.
    private long Worth(int k)
    {
        knapsack.Solve(problem, k, lp!.Prices, problem.Demand, 0, complete: true);
        return knapsack.AtMost;
    }

    private void Seed()
    {
        for (var k = 0; k < problem.Types; k++)
        {
            for (var i = 0; i < problem.Kinds; i++)
            {
                if (problem.Fits(k, i) && 0 < problem.Demand[i])
                {
                    lp!.Add(new Pattern(k, [i], [(int)Math.Min(problem.Demand[i], problem.Capacity[k] / problem.Length[i])]));
                }
            }
        }

        if (best is not null)
        {
            foreach (var (pattern, _) in best.Bars)
            {
                lp!.Add(pattern);
            }
        }
    }
}
