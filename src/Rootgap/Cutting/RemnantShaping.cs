using Rootgap.Cutting.Solver;

namespace Rootgap.Cutting;

/// <summary>
/// With the same bars, moves pieces so that what is left is one long remnant rather than many short ones: two bars at a time, one is filled
/// as full as the pieces of both allow. No claim of proof is made for this: bars and cost stay as they are.
/// </summary>
internal static class RemnantShaping
{
    private const int MostBars = 60;

    /// <param name="shortest">Shortest remnant worth keeping, in the problem's unit.</param>
    public static Packing Shape(PackingProblem problem, Packing packing, long shortest, Effort effort)
    {
        var bars = new List<Pattern>();
        foreach (var (pattern, times) in packing.Bars)
        {
            for (var t = 0; t < times; t++)
                bars.Add(pattern);
        }

        var knapsack = new Knapsack();
        var demand = new int[problem.Kinds];
        for (var pass = 0; pass < 4; pass++)
        {
            var changed = false;

            // Only bars with something left can give anything.
            var loose = Enumerable.Range(0, bars.Count).Where(b => 0 < Left(bars[b])).OrderByDescending(b => Left(bars[b])).ThenBy(b => b).Take(MostBars).ToArray();
            for (var a = 0; a < loose.Length && !effort.Spent; a++)
            {
                for (var b = a + 1; b < loose.Length; b++)
                    changed |= Trade(loose[a], loose[b]);
            }

            if (!changed)
                break;
        }

        return new Packing([.. bars.GroupBy(b => b, Pattern.SameCuts).Select(g => (g.Key, g.Count()))]);

        long Left(Pattern p) => problem.Capacity[p.Type] - p.Used(problem);

        // Long ones count more than in proportion; what is too short to keep counts nothing.
        double Worth(long left) => left < shortest ? 0 : (double)left * left;

        bool Trade(int i, int j)
        {
            var now = Worth(Left(bars[i])) + Worth(Left(bars[j]));
            Array.Clear(demand);
            foreach (var p in (Pattern[])[bars[i], bars[j]])
            {
                for (var q = 0; q < p.Kinds.Length; q++)
                    demand[p.Kinds[q]] += p.Counts[q];
            }

            foreach (var (fill, rest) in ((int, int)[])[(i, j), (j, i)])
            {
                var type = bars[fill].Type;
                var other = bars[rest].Type;
                if (!knapsack.Solve(problem, type, problem.Length, demand, 0, problem.Capacity[type], steps: 3000))
                    continue;
                var (kinds, counts) = knapsack.Filling();
                var left = (int[])demand.Clone();
                for (var q = 0; q < kinds.Length; q++)
                    left[kinds[q]] -= counts[q];
                var remaining = Enumerable.Range(0, left.Length).Where(k => 0 < left[k]).ToArray();
                var filled = new Pattern(type, kinds, counts);
                var spare = new Pattern(other, remaining, [.. remaining.Select(k => left[k])]);
                if (remaining.Length == 0 || Left(spare) < 0 || !remaining.All(k => problem.Fits(other, k)) || Worth(Left(filled)) + Worth(Left(spare)) <= now)
                    continue;
                bars[fill] = filled;
                bars[rest] = spare;
                return true;
            }

            return false;
        }
    }
}
