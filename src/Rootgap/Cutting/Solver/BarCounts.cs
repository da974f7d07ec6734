namespace Rootgap.Cutting.Solver;

/// <summary>
/// A price certificate: prices of pieces such that no bar of type k can hold more than Worth[k], while all pieces together are worth
/// Total. So every plan keeps sum over k of Worth[k] x bars of type k >= Total. Whole numbers: anyone can add it up.
/// </summary>
internal sealed record Certificate(long[] Prices, long[] Worth, long Total);

/// <summary>
/// Which numbers of bars of each type may still hold all the pieces: those that pay for every certificate and were not ruled out by
/// exhaustive search. Gives them best first: the smallest first objective, then the smallest second.
/// </summary>
internal sealed class BarCounts(PackingProblem problem)
{
    private readonly List<Certificate> certificates = [];
    private readonly List<int[]> impossible = [];
    private readonly List<int[]> skipped = [];
    private readonly int[] byCapacity = [.. Enumerable.Range(0, problem.Types).OrderByDescending(k => problem.Capacity[k]).ThenBy(k => k)];

    public IReadOnlyList<Certificate> Certificates => certificates;

    public void Add(Certificate certificate) => certificates.Add(certificate);

    /// <summary>No packing into these bars exists (exhaustive search), so none into fewer or shorter ones either.</summary>
    public void RuleOut(int[] counts) => impossible.Add(counts);

    /// <summary>Not settled: do not offer these again.</summary>
    public void Skip(int[] counts) => skipped.Add(counts);

    /// <summary>The best numbers still possible, or null when there are none. Exact is false when the search was cut short: then the bound is still safe.</summary>
    public (int[]? Counts, long First, long Second, bool Exact) Next()
    {
        if (problem.Types == 1)
        {
            return NextOfOne();
        }

        var first = Minimise(problem.First, null, long.MaxValue, out var exactFirst);
        if (first.Counts is null)
        {
            return (null, 0, 0, exactFirst);
        }

        if (!exactFirst)
        {
            return (first.Counts, first.Bound, 0, false);
        }

        var second = Minimise(problem.Second, problem.First, first.Bound, out var exactSecond);
        return second.Counts is null ? (first.Counts, first.Bound, 0, false) : (second.Counts, first.Bound, second.Bound, exactSecond);
    }

    /// <summary>A lower bound of any count of bars weighted by <paramref name="goal"/>, with another weighted count capped.</summary>
    public long Least(long[] goal, long[]? capped, long cap) =>
        certificates.Count == 0 ? 0 : Minimise(goal, capped, capped is null ? long.MaxValue : cap, out _).Bound;

    private (int[]?, long, long, bool) NextOfOne()
    {
        long n = 0;
        foreach (var c in certificates)
        {
            n = c.Worth[0] == 0 ? (0 < c.Total ? long.MaxValue : n) : Math.Max(n, (c.Total + c.Worth[0] - 1) / c.Worth[0]);
        }

        foreach (var g in impossible.Concat(skipped))
        {
            n = Math.Max(n, g[0] + 1L);
        }

        return n <= problem.Limit[0] ? ([(int)n], n * problem.First[0], n * problem.Second[0], true) : (null, 0, 0, true);
    }

    private int nodes;
    private long best;
    private int[]? bestCounts;
    private int[] now = [];

    private (int[]? Counts, long Bound) Minimise(long[] goal, long[]? capped, long cap, out bool exact)
    {
        // The order of types: cheapest cover first, so that good answers come early.
        var main = certificates[^1];
        var order = Enumerable.Range(0, problem.Types).Where(k => 0 < problem.Limit[k])
            .OrderBy(k => goal[k] / Math.Max(1.0, main.Worth[k])).ThenByDescending(k => problem.Capacity[k]).ThenBy(k => k).ToArray();
        nodes = 60_000;
        best = long.MaxValue;
        bestCounts = null;
        now = new int[problem.Types];
        var need = certificates.Select(c => c.Total).ToArray();
        var root = Least(order, 0, goal, need);
        if (root == long.MaxValue)
        {
            exact = true;
            return (null, 0);
        }

        Walk(order, 0, goal, 0, capped, cap, need);
        exact = 0 <= nodes;
        return (bestCounts, exact ? best : root);
    }

    private void Walk(int[] order, int j, long[] goal, long sum, long[]? capped, long cap, long[] need)
    {
        if (--nodes < 0)
        {
            return;
        }

        var open = false;
        foreach (var d in need)
        {
            open |= 0 < d;
        }

        if (!open && !RuledOut())
        {
            if (sum < best)
            {
                best = sum;
                bestCounts = [.. now];
            }

            return;
        }

        if (j == order.Length)
        {
            return;
        }

        var least = Least(order, j, goal, need);
        if (least == long.MaxValue || best - sum <= least)
        {
            return;
        }

        if (capped is not null && cap < Least(order, j, capped, need))
        {
            return;
        }

        var k = order[j];
        var most = problem.Limit[k];
        if (capped is not null && 0 < capped[k])
        {
            most = (int)Math.Min(most, cap / capped[k]);
        }

        // More than covers every certificate by itself is never needed, except to get past what was ruled out.
        long enough = 0;
        for (var c = 0; c < need.Length; c++)
        {
            var worth = certificates[c].Worth[k];
            if (0 < need[c])
            {
                enough = worth == 0 ? most : Math.Max(enough, (need[c] + worth - 1) / worth);
            }
        }

        foreach (var g in impossible.Concat(skipped))
        {
            enough = Math.Max(enough, g.Sum() + 1L);
        }

        most = (int)Math.Min(most, enough);
        var saved = (long[])need.Clone();
        for (var n = most; n >= 0; n--)
        {
            for (var c = 0; c < need.Length; c++)
            {
                need[c] = saved[c] - n * certificates[c].Worth[k];
            }

            now[k] = n;
            Walk(order, j + 1, goal, sum + n * goal[k], capped, capped is null ? cap : cap - n * capped[k], need);
            if (nodes < 0)
            {
                break;
            }
        }

        now[k] = 0;
        Array.Copy(saved, need, need.Length);
    }

    // A lower bound on what the types from j on must add: for each certificate alone, the cheapest fractional cover, rounded up.
    private readonly Dictionary<(long[] Goal, int Certificate), int[]> covers = [];

    private long Least(int[] order, int j, long[] goal, long[] need)
    {
        long least = 0;
        for (var c = 0; c < need.Length; c++)
        {
            if (need[c] <= 0)
            {
                continue;
            }

            var worth = certificates[c].Worth;
            if (!covers.TryGetValue((goal, c), out var cheap))
            {
                cheap = [.. Enumerable.Range(0, problem.Types).OrderBy(k => worth[k] == 0 ? double.MaxValue : (double)goal[k] / worth[k])];
                covers[(goal, c)] = cheap;
            }

            var left = need[c];
            double sum = 0;
            foreach (var k in cheap)
            {
                if (worth[k] == 0 || !From(order, j, k))
                {
                    continue;
                }

                var full = (double)problem.Limit[k] * worth[k];
                if (left <= full)
                {
                    sum += (double)left * goal[k] / worth[k];
                    left = 0;
                    break;
                }

                sum += (double)problem.Limit[k] * goal[k];
                left -= problem.Limit[k] * worth[k];
            }

            if (0 < left)
            {
                return long.MaxValue;
            }

            least = Math.Max(least, (long)Math.Ceiling(sum * (1 - 1e-12) - 1e-6));
        }

        return least;
    }

    private static bool From(int[] order, int j, int k)
    {
        for (; j < order.Length; j++)
        {
            if (order[j] == k)
            {
                return true;
            }
        }

        return false;
    }

    private bool RuledOut()
    {
        foreach (var g in skipped)
        {
            if (g.AsSpan().SequenceEqual(now))
            {
                return true;
            }
        }

        foreach (var g in impossible)
        {
            if (Within(now, g))
            {
                return true;
            }
        }

        return false;
    }

    // Are the bars `a` no more than the bars `b`, each replaced by one at least as long?
    private bool Within(int[] a, int[] b)
    {
        long more = 0;
        foreach (var k in byCapacity)
        {
            if (problem.Allowed is not null)
            {
                if (b[k] < a[k])
                {
                    return false;
                }

                continue;
            }

            more += b[k] - a[k];
            if (more < 0)
            {
                return false;
            }
        }

        return true;
    }
}
