namespace Rootgap.Cutting.Solver;

/// <summary>One set of numbers of bars: pack the pieces into them, or show that it can't be done.</summary>
internal sealed partial class BarSearch
{
    private Verdict Try(int[] n, Effort within, bool last)
    {
        var fill = new GreedyFill(problem);
        if (fill.Pack(problem.Demand, n, 6, within) is { } quick)
        {
            Offer(new Packing(quick));
            return Verdict.Packed;
        }

        var share = last ? within : within.Part(problem.Types == 1 ? 0.85 : 0.5);
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
            var (packed, settled) = ExactPacking.Solve(problem, n, counts.Certificates, within, 20_000);
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

        // Every pattern that a plan with these bars can contain, when they are few enough to be listed.
        List<Pattern>? list = null;
        bool[] ones = [];
        if (guide is not null && problem.Kinds <= LargeBasis)
        {
            list = Listed(n, guide, isFull: false, MostListed, share);
            ones = [.. guide.Prices.Select(_ => true)];
            if (list is null && Middle(share) is { } middle)
            {
                // Too many: prices from the middle tell more of them apart.
                guide = middle;
                list = Listed(n, guide, isFull: false, MostListed, share);
            }

            if (list is null)
            {
                // Still too many: the full ones only. Kinds are single then where one more would be worth more than the bars can spare.
                list = Listed(n, guide, isFull: true, MostListed, share);
                ones = [.. guide.Prices.Select(p => guide.Spare(n) < p)];
            }
        }

        if (list is null && lp.Complete && Dived(n, share, 3, 0, 150))
        {
            return Verdict.Packed;
        }

        Certificate[] prices = guide is null ? [.. counts.Certificates] : [.. counts.Certificates, guide];
        for (var go = 0; go < 12 && !share.Spent; go++)
        {
            if (go == 2 && list is null && guide is not null && problem.Kinds <= LargeBasis && effort.HasClock)
            {
                list = Listed(n, guide, isFull: false, MostListedLate, share);
            }

            if (list is not null)
            {
                var cover = new CoverSearch(problem, n, list, ones, share, 300 << (2 * Math.Min(go, 8)));
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
        if (LargeBasis < problem.Kinds)
        {
            // Second thoughts keep a basis for each bar fixed: with many lengths only the straight way down is taken.
            if (0 < from)
            {
                return false;
            }

            tries = 1;
        }

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
            Seed(lp);
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

        if (total <= paid)
        {
            return false;
        }

        var worth = new long[n.Length];
        for (var k = 0; k < n.Length; k++)
        {
            worth[k] = 0 < lp.Limit[k] ? lp.Worth[k] : Worth(k, lp.Prices);
        }

        if (Certificate.Of(problem, lp.Prices, worth) is not { } certificate)
        {
            return false;
        }

        counts.Add(certificate);
        return true;
    }

    // The best prices are many. At one corner of them much costs nothing, and all that could be cut of it is on the list; the mean of several corners has a price for
    // nearly everything. Any prices make a true certificate.
    private Certificate? Middle(Effort share)
    {
        if (lp is not { Complete: true })
        {
            return null;
        }

        var around = lp.Branch();
        var random = new Random(11);
        var sum = new long[problem.Kinds];
        for (var corner = 0; corner < Corners; corner++)
        {
            around.Lean([.. problem.Demand.Select(_ => LeanMost * ((2 * random.NextDouble()) - 1))]);
            if (!around.Solve(share))
            {
                return null;
            }

            for (var i = 0; i < sum.Length; i++)
            {
                sum[i] += around.Prices[i];
            }
        }

        return Certificate.Of(problem, sum, [.. Enumerable.Range(0, problem.Types).Select(k => Worth(k, sum))]);
    }

    private Certificate? Guide() => Certificate.Of(problem, lp!.Prices, lp.Worth);

    private List<Pattern>? Listed(int[] n, Certificate prices, bool isFull, int most, Effort share)
    {
        if (prices.Spare(n) is not { } spare)
        {
            return null;
        }

        var list = new List<Pattern>();
        for (var k = 0; k < n.Length; k++)
        {
            if (0 < n[k])
            {
                if (PatternList.Worthy(problem, k, prices.Prices, prices.Worth[k] - spare, isFull, most - list.Count, share) is not { } some)
                {
                    return null;
                }

                list.AddRange(some);
            }
        }

        return list;
    }

    // A bar of a type that is not among these numbers: what it could hold at these prices.
    private long Worth(int k, long[] prices)
    {
        knapsack.Solve(problem, k, prices, problem.Demand, 0, complete: true);
        return knapsack.AtMost;
    }

    private void Seed(PatternLp into)
    {
        for (var k = 0; k < problem.Types; k++)
        {
            for (var i = 0; i < problem.Kinds; i++)
            {
                if (problem.Fits(k, i) && 0 < problem.Demand[i])
                {
                    into.Add(new Pattern(k, [i], [(int)Math.Min(problem.Demand[i], problem.Capacity[k] / problem.Length[i])]));
                }
            }
        }

        if (best is not null)
        {
            foreach (var (pattern, _) in best.Bars)
            {
                into.Add(pattern);
            }
        }
    }
}
