namespace Rootgap.Cutting.Solver;

/// <summary>
/// Given every pattern that a plan with these bars can contain, finds such a plan or proves that there is none: branch and bound on the
/// relaxation over the list. It branches on two pieces lying in one bar or in different bars (Ryan and Foster 1981), else on a pattern.
/// A node is dropped only when its prices, rounded to whole numbers and added up exactly, say so.
/// </summary>
/// <param name="single">
/// Kinds of which no plan from the list holds more than is wanted. Where the list has only full patterns, a plan made of them may hold a cheap piece
/// twice; in one bar or in different bars is then no question with two answers, and pairs are asked of single kinds alone.
/// </param>
internal sealed class CoverSearch(PackingProblem problem, int[] bars, List<Pattern> list, bool[] single, Effort effort, int mostNodes)
{
    private const int Deepest = 300; // every level keeps a basis
    private const int NodesForPlans = 60;
    private const int Candidates = 8;
    private List<(Pattern Pattern, int Times)>? found;
    private int depth;

    public int Nodes { get; private set; }

    /// <summary>The whole tree was searched.</summary>
    public bool Settled { get; private set; }

    /// <summary>The plan, with no piece twice; or null: Settled tells whether there is none or the search was cut short.</summary>
    public List<(Pattern Pattern, int Times)>? Run()
    {
        Settled = true;
        var lp = new PatternLp(problem) { ListOnly = true };
        foreach (var pattern in list)
        {
            lp.Add(pattern);
        }

        lp.Forbidden = new bool[lp.Pool.Count];
        var longest = (double)problem.Capacity.Max();
        var costs = problem.Capacity.Select(c => problem.Types == 1 ? 1 : c / longest).ToArray();
        lp.Start(problem.Demand, problem.Types == 1 ? [PackingProblem.Plenty] : bars, costs, problem.Types > 1);
        Node(lp, [], problem.Types == 1 ? bars[0] : 0);
        return found is null ? null : Trim(found);
    }

    private bool Node(PatternLp lp, List<(Pattern Pattern, int Times)> chosen, int barsLeft)
    {
        if (mostNodes < ++Nodes || Deepest < depth || effort.Spent || !lp.Solve(effort))
        {
            Settled = false;
            return false;
        }

        depth++;
        var isFound = Branches(lp, chosen, barsLeft);
        depth--;
        return isFound;
    }

    private bool Branches(PatternLp lp, List<(Pattern Pattern, int Times)> chosen, int barsLeft)
    {

        if (IsHopeless(lp, barsLeft))
        {
            return false;
        }

        var solution = lp.Solution();
        if (lp.Uncovered == 0 && solution.TrueForAll(s => Math.Abs(s.Times - Math.Round(s.Times)) < 1e-3))
        {
            var whole = solution.Select(s => (s.Pattern, Times: (int)Math.Round(s.Times))).Where(s => 0 < s.Times).Concat(chosen).ToList();
            if (Enough(whole))
            {
                found = whole;
                return true;
            }
        }

        return Pair(lp, solution, barsLeft) is var (i, j) && 0 <= i ? BranchOnPair(lp, chosen, barsLeft, i, j) : BranchOnPattern(lp, chosen, barsLeft, solution);
    }

    // Of the pairs of single pieces that lie together in part, that whose two answers both press the bound most (strong branching, Achterberg et al. 2005).
    private (int I, int J) Pair(PatternLp lp, List<(int Index, Pattern Pattern, double Times)> solution, int barsLeft)
    {
        var together = new Dictionary<(int, int), double>();
        foreach (var (_, pattern, times) in solution)
        {
            for (var a = 0; a < pattern.Kinds.Length; a++)
            {
                if (!single[pattern.Kinds[a]] || lp.Demand[pattern.Kinds[a]] != 1 || pattern.Counts[a] != 1)
                {
                    continue;
                }

                for (var b = a + 1; b < pattern.Kinds.Length; b++)
                {
                    if (single[pattern.Kinds[b]] && lp.Demand[pattern.Kinds[b]] == 1 && pattern.Counts[b] == 1)
                    {
                        var key = (pattern.Kinds[a], pattern.Kinds[b]);
                        together[key] = together.GetValueOrDefault(key) + times;
                    }
                }
            }
        }

        var open = together.Where(t => t.Value is > 1e-3 and < 1 - 1e-3).ToList();
        if (open.Count == 0)
        {
            return (-1, -1);
        }

        // Plans first: the pair that is nearest to lying together. After some nodes there is none to be found easily, and a proof is looked for.
        if (problem.Types > 1 || Nodes < NodesForPlans)
        {
            return open.OrderByDescending(t => t.Value).ThenBy(t => t.Key).First().Key;
        }

        var best = (-1, -1);
        var most = -1.0;
        foreach (var (pair, _) in open.OrderBy(t => Math.Abs(t.Value - 0.6)).ThenBy(t => t.Key).Take(Candidates))
        {
            var score = 1.0;
            foreach (var apart in (bool[])[false, true])
            {
                var child = lp.Branch();
                Forbid(child, pair.Item1, pair.Item2, apart);
                if (!child.Solve(effort))
                {
                    return open[0].Key;
                }

                var gain = Math.Min(child.Objective, barsLeft + 0.5) - lp.Objective;
                score *= Math.Max(gain, 1e-5);
                if (barsLeft + 1e-3 < child.Objective)
                {
                    return pair; // one answer is hopeless: nothing to branch
                }
            }

            if (most < score)
            {
                (most, best) = (score, pair);
            }
        }

        return best;
    }

    private static void Forbid(PatternLp lp, int i, int j, bool apart)
    {
        for (var p = 0; p < lp.Forbidden.Length; p++)
        {
            var kinds = lp.Pool[p].Kinds;
            var hasI = Array.BinarySearch(kinds, i) >= 0;
            var hasJ = Array.BinarySearch(kinds, j) >= 0;
            lp.Forbidden[p] |= apart ? hasI && hasJ : hasI != hasJ;
        }
    }

    private bool BranchOnPair(PatternLp lp, List<(Pattern Pattern, int Times)> chosen, int barsLeft, int i, int j)
    {
        for (var apart = 0; apart < 2; apart++)
        {
            var child = apart == 0 ? lp.Branch() : lp;
            Forbid(child, i, j, apart == 1);
            if (Node(child, chosen, barsLeft))
            {
                return true;
            }
        }

        return false;
    }

    private bool BranchOnPattern(PatternLp lp, List<(Pattern Pattern, int Times)> chosen, int barsLeft, List<(int Index, Pattern Pattern, double Times)> solution)
    {
        var pick = solution.Where(s => !lp.Forbidden[s.Index] && 1e-3 < Math.Abs(s.Times - Math.Round(s.Times)))
            .OrderByDescending(s => s.Times - Math.Floor(s.Times)).ThenBy(s => s.Index).FirstOrDefault((-1, null!, 0));
        if (pick.Index < 0)
        {
            Settled = false; // nothing to branch on, and yet not a plan: leave it open
            return false;
        }

        var floor = (int)Math.Floor(pick.Times);
        for (var t = floor + 1; t >= 0; t--)
        {
            var child = lp.Branch();
            if (0 < t)
            {
                child.Fix(pick.Pattern, t);
            }

            if (t <= floor)
            {
                child.Forbidden[pick.Index] = true;
            }

            if (Node(child, t == 0 ? chosen : [.. chosen, (pick.Pattern, t)], barsLeft - t))
            {
                return true;
            }
        }

        return false;
    }

    // The prices of this node as a certificate, exactly: all that is left is worth more than the bars left can hold. Where it is not, patterns that waste
    // more than all the bars together can spare are in no plan of this node (fixing by reduced cost).
    private bool IsHopeless(PatternLp lp, int barsLeft)
    {
        var prices = lp.WholePrices();
        Int128 total = 0;
        for (var i = 0; i < prices.Length; i++)
        {
            total += (Int128)prices[i] * Math.Max(0, lp.Demand[i]);
        }

        var worth = new Int128[problem.Types];
        var values = new Int128[lp.Forbidden.Length];
        for (var p = 0; p < lp.Forbidden.Length; p++)
        {
            if (!lp.Forbidden[p])
            {
                var pattern = lp.Pool[p];
                for (var i = 0; i < pattern.Kinds.Length; i++)
                {
                    values[p] += (Int128)prices[pattern.Kinds[i]] * pattern.Counts[i];
                }

                worth[pattern.Type] = Int128.Max(worth[pattern.Type], values[p]);
            }
        }

        var spare = -total;
        for (var k = 0; k < worth.Length; k++)
        {
            spare += worth[k] * (problem.Types == 1 ? Math.Max(0, barsLeft) : Math.Max(0, lp.Limit[k]));
        }

        if (spare < 0)
        {
            return true;
        }

        for (var p = 0; p < values.Length; p++)
        {
            lp.Forbidden[p] |= values[p] < worth[lp.Pool[p].Type] - spare;
        }

        return false;
    }

    private bool Enough(List<(Pattern Pattern, int Times)> plan)
    {
        var left = (int[])problem.Demand.Clone();
        var free = (int[])bars.Clone();
        foreach (var (pattern, times) in plan)
        {
            free[pattern.Type] -= times;
            for (var i = 0; i < pattern.Kinds.Length; i++)
            {
                left[pattern.Kinds[i]] -= times * pattern.Counts[i];
            }
        }

        return left.All(d => d <= 0) && free.All(f => 0 <= f);
    }

    // Patterns may cover a piece twice: the second is left out.
    private List<(Pattern, int)> Trim(List<(Pattern Pattern, int Times)> plan)
    {
        var left = (int[])problem.Demand.Clone();
        var result = new List<(Pattern, int)>();
        foreach (var (pattern, times) in plan)
        {
            for (var t = 0; t < times; t++)
            {
                var kinds = new List<int>();
                var counts = new List<int>();
                for (var i = 0; i < pattern.Kinds.Length; i++)
                {
                    var n = Math.Min(left[pattern.Kinds[i]], pattern.Counts[i]);
                    if (0 < n)
                    {
                        left[pattern.Kinds[i]] -= n;
                        kinds.Add(pattern.Kinds[i]);
                        counts.Add(n);
                    }
                }

                if (0 < kinds.Count)
                {
                    result.Add((new Pattern(pattern.Type, [.. kinds], [.. counts]), 1));
                }
            }
        }

        return result;
    }
}
