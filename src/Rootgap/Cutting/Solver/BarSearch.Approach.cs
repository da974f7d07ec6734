namespace Rootgap.Cutting.Solver;

/// <summary>
/// Where the best numbers of bars can't be settled: good plans near the bound. First the relaxation over all bars with what they cost, whose prices
/// sharpen the bound and whose whole part is cut; then numbers of bars with a little to spare, as little as goes; last, groups of bars planned anew.
/// </summary>
internal sealed partial class BarSearch
{
    private const int Halvings = 7;
    private const int Regroupings = 400; // without a clock
    private const int MostInGroup = 45; // pieces of a group of bars that is planned anew

    private bool IsDone => best is not null && bestValue.AsSpan().SequenceEqual(Bound());

    private void Approach()
    {
        if (problem.Kinds <= ManyKinds && 1 < problem.Types)
        {
            Priced(effort.Part(0.4));
        }

        // The least to spare with which the pieces were packed, and the most with which they were not.
        var share = effort.Part(0.6);
        double failed = 0;
        double packed = 0;
        for (var spare = 1e-5; spare < 0.5 && !share.Spent; spare *= 3)
        {
            if (counts.Near(spare) is not { } n || !IsBetter(n))
            {
                packed = packed == 0 ? spare : packed;
                break;
            }

            if (Packed(n, share))
            {
                packed = spare;
                break;
            }

            failed = spare;
        }

        for (var go = 0; go < Halvings && packed > 0 && !share.Spent; go++)
        {
            var middle = failed == 0 ? packed / 4 : Math.Sqrt(failed * packed);
            if (counts.Near(middle) is { } n && IsBetter(n))
            {
                if (Packed(n, share))
                {
                    packed = middle;
                }
                else
                {
                    failed = middle;
                }
            }
            else
            {
                packed = middle;
            }
        }
    }

    private bool IsBetter(int[] n) => best is null || PackingProblem.IsLess(problem.ValueOf(n), bestValue);

    private bool Packed(int[] n, Effort share)
    {
        var tight = new TightFill(problem);
        for (var way = 0; way < 4; way++)
        {
            if (tight.Pack(n, share, way, 300 << (2 * way)) is { } filled)
            {
                Offer(new Packing(filled));
                return true;
            }
        }

        var fill = new GreedyFill(problem);
        if (fill.Pack(problem.Demand, n, problem.Kinds <= ManyKinds ? 12 : 2, share, seed: 5) is { } found)
        {
            Offer(new Packing(found));
            return true;
        }

        if (problem.Kinds <= LargeBasis && !share.Spent && Relax(n, share.Part(0.5)) != Verdict.RuledOut && lp is { Complete: true, Uncovered: 0 } && Dived(n, share.Part(0.5), 3, 0, 150))
        {
            return true;
        }

        return false;
    }

    // The relaxation with what bars cost, all objectives in one, each far below the one before; any prices make a certificate that holds.
    private void Priced(Effort share)
    {
        var costs = new double[problem.Types];
        double weight = 1;
        foreach (var goal in problem.Goals)
        {
            double most = goal.Max();
            for (var k = 0; most > 0 && k < costs.Length; k++)
            {
                costs[k] += weight * goal[k] / most;
            }

            weight *= most > 0 ? 1e-3 : 1;
        }

        var priced = new PatternLp(problem);
        foreach (var pattern in lp?.Pool ?? [])
        {
            priced.Add(pattern);
        }

        Seed(priced);
        int[] limits = [.. problem.Limit.Select((l, k) => l < task.Limit[k] ? PackingProblem.Plenty : l)];
        priced.Start(problem.Demand, limits, costs, limitRows: true);
        if (!priced.Solve(share) || 0 < priced.Uncovered)
        {
            return;
        }

        long[] worth = [.. priced.Worth.Select((w, k) => 0 < priced.Limit[k] ? w : Worth(k, priced.Prices))];
        if (Certificate.Of(problem, priced.Prices, worth) is { } certificate)
        {
            counts.Add(certificate);
        }

        Whole(priced, share);
    }

    // What the relaxation cuts whole is cut, and the rest is a small task of its own.
    private void Whole(PatternLp priced, Effort share)
    {
        var chosen = new List<(Pattern, int)>();
        var demand = (int[])problem.Demand.Clone();
        var limit = (int[])problem.Limit.Clone();
        foreach (var (_, pattern, times) in priced.Solution())
        {
            var whole = Math.Min((int)Math.Floor(times + 1e-6), limit[pattern.Type]);
            for (var i = 0; i < pattern.Kinds.Length; i++)
            {
                whole = Math.Min(whole, demand[pattern.Kinds[i]] / pattern.Counts[i]);
            }

            if (whole < 1)
            {
                continue;
            }

            chosen.Add((pattern, whole));
            limit[pattern.Type] -= whole;
            for (var i = 0; i < pattern.Kinds.Length; i++)
            {
                demand[pattern.Kinds[i]] -= whole * pattern.Counts[i];
            }
        }

        if (chosen.Count > 0 && Part(demand, limit, share) is { } rest)
        {
            Offer(new Packing([.. chosen, .. rest]));
        }
    }

    // A task with some of the pieces and bars; the plan in the kinds of the whole one.
    private List<(Pattern Pattern, int Times)>? Part(int[] demand, int[] limit, Effort share)
    {
        int[] kinds = [.. Enumerable.Range(0, problem.Kinds).Where(i => 0 < demand[i])];
        if (kinds.Length == 0)
        {
            return [];
        }

        var part = new PackingProblem
        {
            Length = [.. kinds.Select(i => problem.Length[i])],
            Demand = [.. kinds.Select(i => demand[i])],
            Capacity = problem.Capacity,
            Limit = limit,
            Goals = problem.Goals,
            Allowed = problem.Allowed is null ? null : [.. problem.Allowed.Select(a => kinds.Select(i => a[i]).ToArray())],
        };
        return new BarSearch(part, share) { IsPart = true }.Run().Best?.Bars
            .Select(b => (new Pattern(b.Pattern.Type, [.. b.Pattern.Kinds.Select(q => kinds[q])], b.Pattern.Counts), b.Times)).ToList();
    }

    // Some bars of the plan, those with the most left and some by chance, are planned anew from what they hold, with these bars and all that are free.
    private void Regroup()
    {
        var random = new Random(3);
        var vain = 0;
        for (var go = 0; go < (effort.HasClock ? int.MaxValue : Regroupings) && vain < Regroupings && !effort.Spent; go++)
        {
            var bars = best!.Bars.SelectMany(b => Enumerable.Repeat(b.Pattern, b.Times)).ToList();
            if (bars.Count < 2 || ((go & 15) == 0 && IsDone))
            {
                return;
            }

            var loose = bars.Index().OrderByDescending(b => (problem.Capacity[b.Item.Type] - b.Item.Used(problem)) * (0.3 + random.NextDouble())).Take(2 + random.Next(3)).Select(b => b.Index).ToHashSet();
            for (var more = random.Next(4); more > 0; more--)
            {
                loose.Add(random.Next(bars.Count));
            }

            var demand = new int[problem.Kinds];
            var limit = (int[])problem.Limit.Clone();
            var kept = new List<(Pattern, int)>();
            foreach (var (b, bar) in bars.Index())
            {
                if (!loose.Contains(b) || MostInGroup < demand.Sum() + bar.Counts.Sum())
                {
                    kept.Add((bar, 1));
                    limit[bar.Type]--;
                    continue;
                }

                for (var i = 0; i < bar.Kinds.Length; i++)
                {
                    demand[bar.Kinds[i]] += bar.Counts[i];
                }
            }

            var before = bestValue;
            if (Part(demand, limit, effort.Part(0.05)) is { } anew)
            {
                Offer(new Packing([.. kept, .. anew]));
            }

            vain = ReferenceEquals(before, bestValue) ? vain + 1 : 0;
        }
    }
}
