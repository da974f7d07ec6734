namespace Rootgap.Cutting.Solver;

/// <summary>
/// From the relaxation to whole bars: what the relaxation cuts whole is cut, then the largest fraction is rounded up, and the rest is
/// solved again, with a limited number of second thoughts (diving with limited discrepancy, Sadykov et al. 2019).
/// </summary>
internal sealed class Dive(PackingProblem problem, int[] bars, Effort effort, int mostSolves)
{
    private readonly GreedyFill greedy = new(problem);
    private readonly List<(Pattern Pattern, int Times)> chosen = [];
    private readonly int total = bars.Sum();
    private Random random = new(1);
    private double noise;
    private bool patient; // asks the relaxation about many patterns before it gives a place up
    private long solves;

    /// <summary>Bars already fixed and their patterns, once Run has returned true.</summary>
    public IReadOnlyList<(Pattern Pattern, int Times)> Packed => chosen;

    /// <summary>Looks until found, out of effort, or <paramref name="tries"/> dives have been made.</summary>

    public bool Run(PatternLp root, int tries, int first = 0)
    {
        for (var attempt = first; attempt < first + tries && !effort.Spent; attempt++)
        {
            chosen.Clear();
            random = new Random(attempt);
            noise = attempt < 4 ? 0 : 0.3;
            patient = attempt % 4 == 3;
            solves = 0;
            if (Descend(root.Branch(), attempt < 3 ? attempt : patient ? 0 : 1, 0))
            {
                return true;
            }
        }

        return false;
    }

    private bool Descend(PatternLp lp, int doubts, int fixedBars)
    {
        var mark = chosen.Count;
        if (!Promising(lp, fixedBars))
        {
            return false;
        }

        var solution = lp.Solution();
        foreach (var (_, pattern, times) in solution)
        {
            var whole = (int)Math.Floor(times + 1e-4);
            while (0 < whole && !Possible(lp, pattern, whole))
            {
                whole--;
            }

            if (0 < whole)
            {
                lp.Fix(pattern, whole);
                chosen.Add((pattern, whole));
                fixedBars += whole;
            }
        }

        var pieces = 0L;
        foreach (var d in lp.Demand)
        {
            pieces += d;
        }

        if (pieces == 0)
        {
            return true;
        }

        var free = problem.Types == 1 ? [total - fixedBars] : lp.Limit;
        if (greedy.Pack(lp.Demand, free, 8, effort, seed: fixedBars + 1) is { } rest)
        {
            chosen.AddRange(rest);
            return true;
        }

        var fractions = solution.Select(s => (s.Pattern, Weight: s.Times - Math.Floor(s.Times + 1e-4) + (noise * random.NextDouble())))
            .Where(s => 1e-3 < s.Weight && lp.Proper(s.Pattern))
            .OrderByDescending(s => s.Weight).ThenBy(s => s.Pattern.Kinds[0]).Take(12).ToArray();
        var after = chosen.Count;
        var second = 0; // second thoughts: a pattern that the relaxation refuses at once is none
        for (var q = 0; q < fractions.Length && second <= doubts; q++)
        {
            // Without second thoughts there is nothing to come back to.
            var child = !patient && second == doubts ? lp : lp.Branch();
            child.Fix(fractions[q].Pattern, 1);
            if (!Promising(child, fixedBars + 1))
            {
                second += patient ? 0 : 1;
                continue;
            }

            chosen.Add((fractions[q].Pattern, 1));
            if (Descend(child, doubts - second, fixedBars + 1))
            {
                return true;
            }

            chosen.RemoveRange(after, chosen.Count - after);
            second++;
        }

        chosen.RemoveRange(mark, chosen.Count - mark);
        return false;
    }

    private bool Promising(PatternLp lp, int fixedBars) =>
        !effort.Spent && ++solves < mostSolves && lp.Solve(effort) && lp.Uncovered == 0 && (1 < problem.Types || fixedBars + lp.Objective <= total + 1e-3);

    private static bool Possible(PatternLp lp, Pattern pattern, int times)
    {
        if (lp.Limit[pattern.Type] < times)
        {
            return false;
        }

        for (var i = 0; i < pattern.Kinds.Length; i++)
        {
            if (lp.Demand[pattern.Kinds[i]] < times * pattern.Counts[i])
            {
                return false;
            }
        }

        return true;
    }
}
