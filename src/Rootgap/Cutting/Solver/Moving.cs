namespace Rootgap.Cutting.Solver;

/// <summary>The contents of a plan's bars, moved as they are into better bars: shorter or cheaper ones that hold them, too.</summary>
internal static class Moving
{
    public static Packing ToBetterBars(PackingProblem problem, Packing packing)
    {
        if (problem.Types == 1)
        {
            return packing;
        }

        var bars = new List<Pattern>();
        foreach (var (pattern, times) in packing.Bars)
        {
            for (var t = 0; t < times; t++)
            {
                bars.Add(pattern);
            }
        }

        // Types from the best on: by the first objective in which they differ.
        var order = Enumerable.Range(0, problem.Types).ToArray();
        Array.Sort(order, (a, b) =>
        {
            foreach (var goal in problem.Goals)
            {
                if (goal[a] != goal[b])
                {
                    return goal[a].CompareTo(goal[b]);
                }
            }

            return problem.Capacity[a] != problem.Capacity[b] ? problem.Capacity[a].CompareTo(problem.Capacity[b]) : a.CompareTo(b);
        });
        var place = new int[problem.Types];
        for (var j = 0; j < order.Length; j++)
        {
            place[order[j]] = j;
        }

        var free = (int[])problem.Limit.Clone();
        foreach (var bar in bars)
        {
            free[bar.Type]--;
        }

        // The fullest first: it has the least choice. A bar that is left may be the better one for another, hence again until nothing moves.
        var used = bars.ConvertAll(b => b.Used(problem));
        var turn = Enumerable.Range(0, bars.Count).OrderByDescending(b => used[b]).ThenBy(b => b).ToArray();
        var moved = false;
        for (var again = true; again;)
        {
            again = false;
            foreach (var b in turn)
            {
                var bar = bars[b];
                for (var j = 0; j < place[bar.Type]; j++)
                {
                    var k = order[j];
                    if (0 < free[k] && used[b] <= problem.Capacity[k] && (problem.Allowed is null || bar.Kinds.All(i => problem.Fits(k, i))))
                    {
                        free[k]--;
                        free[bar.Type]++;
                        bars[b] = new Pattern(k, bar.Kinds, bar.Counts);
                        again = moved = true;
                        break;
                    }
                }
            }
        }

        return moved ? new Packing([.. bars.GroupBy(b => b, Pattern.SameCuts).Select(g => (g.Key, g.Count()))]) : packing;
    }
}
