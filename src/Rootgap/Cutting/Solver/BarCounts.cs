namespace Rootgap.Cutting.Solver;

/// <summary>
/// A price certificate: prices of pieces such that no bar of type k can hold more than Worth[k], while all pieces together are worth
/// Total. So every plan keeps sum over k of Worth[k] x bars of type k >= Total. Whole numbers: anyone can add it up.
/// </summary>
internal sealed record Certificate(long[] Prices, long[] Worth, long Total)
{
    /// <summary>Certificates are kept below this total, so that sums and products of a search stay exact.</summary>
    public const long Most = 1_000_000_000_000_000;

    /// <summary>The certificate of these prices; null where the pieces together are worth more than can be added up safely.</summary>
    public static Certificate? Of(PackingProblem problem, long[] prices, long[] worth)
    {
        Int128 total = 0;
        for (var i = 0; i < problem.Kinds; i++)
        {
            total += (Int128)prices[i] * problem.Demand[i];
        }

        return total <= Most && worth.Max() <= Most ? new([.. prices], [.. worth], (long)total) : null;
    }

    /// <summary>What bars of these numbers are worth beyond the pieces; null where it is more than can be added up safely.</summary>
    public long? Spare(int[] bars)
    {
        Int128 spare = -Total;
        for (var k = 0; k < bars.Length; k++)
        {
            spare += (Int128)bars[k] * Worth[k];
        }

        return spare < Most ? (long)spare : null;
    }
}

/// <summary>
/// Which numbers of bars of each type may still hold all the pieces: those that pay for every certificate and were not ruled out by
/// exhaustive search. Gives them best first, objective by objective. All in whole numbers.
/// </summary>
internal sealed class BarCounts(PackingProblem problem)
{
    private const int ManyNodes = 60_000, FewNodes = 4_000;

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

    /// <summary>Offers again what was skipped.</summary>
    public void Reopen() => skipped.Clear();

    /// <summary>
    /// The best numbers still possible, or null when there are none; with each objective's bound as far as it could be worked out. Exact is false
    /// when the search was cut short: then the bounds are still safe.
    /// </summary>
    public (int[]? Counts, long[] Bound, bool Exact) Next() => Best(0, ManyNodes, withSkipped: false);

    /// <summary>The best numbers that have something to spare on every certificate, a share of it; null when there are none.</summary>
    public int[]? Near(double spare) => Best(spare, FewNodes, withSkipped: true).Counts;

    private (int[]? Counts, long[] Bound, bool Exact) Best(double spare, int most, bool withSkipped)
    {
        var bound = new long[problem.Goals.Length];
        if (problem.Types == 1 && spare == 0)
        {
            return NextOfOne(bound);
        }

        int[]? counts = null;
        var caps = new List<(long[] Weights, long Most)>();
        for (var g = 0; g < bound.Length; g++)
        {
            var (found, least, exact) = Minimise(problem.Goals[g], caps, spare, most, withSkipped);
            if (found is null)
            {
                return (g == 0 ? null : counts, bound, exact && g == 0);
            }

            counts = found;
            bound[g] = least;
            if (!exact)
            {
                return (counts, bound, false);
            }

            caps.Add((problem.Goals[g], least));
        }

        return (counts, bound, true);
    }

    /// <summary>
    /// A lower bound of what any plan's bars count by these weights, among plans that count no more than the caps; what was not settled is among them.
    /// </summary>
    public long Least(long[] weights, IReadOnlyList<(long[] Weights, long Most)> caps) =>
        certificates.Count == 0 ? 0 : Minimise(weights, caps, 0, ManyNodes, withSkipped: true).Bound;

    private (int[]?, long[], bool) NextOfOne(long[] bound)
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

        return n <= problem.Limit[0] ? ([(int)n], problem.ValueOf([(int)n]), true) : (null, bound, true);
    }

    private int nodes;
    private long best;
    private int[]? bestCounts;
    private int[] now = [];
    private int[] rank = []; // place of each type in the order of the walk
    private bool openOnes; // what was skipped may be answered

    private (int[]? Counts, long Bound, bool Exact) Minimise(long[] goal, IReadOnlyList<(long[] Weights, long Most)> caps, double spare, int most, bool withSkipped)
    {
        // The order of types: cheapest cover first, so that good answers come early.
        var main = certificates[^1];
        var order = Enumerable.Range(0, problem.Types).Where(k => 0 < problem.Limit[k])
            .OrderBy(k => goal[k] / Math.Max(1.0, main.Worth[k])).ThenByDescending(k => problem.Capacity[k]).ThenBy(k => k).ToArray();
        rank = new int[problem.Types];
        Array.Fill(rank, -1);
        for (var j = 0; j < order.Length; j++)
        {
            rank[order[j]] = j;
        }

        nodes = most;
        best = long.MaxValue;
        bestCounts = null;
        openOnes = withSkipped;
        now = new int[problem.Types];
        long[] need = [.. certificates.Select(c => c.Total + (long)(spare * c.Total))];
        long[] room = [.. caps.Select(c => c.Most)];
        var root = Cover(0, goal, need);
        if (root == long.MaxValue)
        {
            return (null, 0, true);
        }

        Walk(order, 0, goal, 0, caps, room, need);
        var exact = 0 <= nodes;
        return (bestCounts, exact && bestCounts is not null ? best : root, exact);
    }

    private void Walk(int[] order, int j, long[] goal, long sum, IReadOnlyList<(long[] Weights, long Most)> caps, long[] room, long[] need)
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

        var least = Cover(j, goal, need);
        if (least == long.MaxValue || best - sum <= least)
        {
            return;
        }

        for (var c = 0; c < room.Length; c++)
        {
            if (room[c] < Cover(j, caps[c].Weights, need))
            {
                return;
            }
        }

        var k = order[j];
        long most = problem.Limit[k];
        for (var c = 0; c < room.Length; c++)
        {
            if (0 < caps[c].Weights[k])
            {
                most = Math.Min(most, room[c] / caps[c].Weights[k]);
            }
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

        foreach (var g in openOnes ? impossible : impossible.Concat(skipped))
        {
            enough = Math.Max(enough, g.Sum() + 1L);
        }

        var saved = (long[])need.Clone();
        var savedRoom = (long[])room.Clone();
        for (var n = (int)Math.Min(most, enough); n >= 0; n--)
        {
            for (var c = 0; c < need.Length; c++)
            {
                need[c] = saved[c] - (n * certificates[c].Worth[k]);
            }

            for (var c = 0; c < room.Length; c++)
            {
                room[c] = savedRoom[c] - (n * caps[c].Weights[k]);
            }

            now[k] = n;
            Walk(order, j + 1, goal, sum + (n * goal[k]), caps, room, need);
            if (nodes < 0)
            {
                break;
            }
        }

        now[k] = 0;
        Array.Copy(saved, need, need.Length);
        Array.Copy(savedRoom, room, room.Length);
    }

    private readonly Dictionary<(long[] Weights, int Certificate), int[]> covers = [];

    // A lower bound on what the types from j on must add: for each certificate alone, the cheapest fractional cover, rounded up. Exact.
    private long Cover(int j, long[] weights, long[] need)
    {
        Int128 least = 0;
        for (var c = 0; c < need.Length; c++)
        {
            if (need[c] <= 0)
            {
                continue;
            }

            var worth = certificates[c].Worth;
            if (!covers.TryGetValue((weights, c), out var cheap))
            {
                cheap = [.. Enumerable.Range(0, problem.Types).Where(k => 0 < worth[k] && 0 < problem.Limit[k])];
                Array.Sort(cheap, (a, b) => ((Int128)weights[a] * worth[b]).CompareTo((Int128)weights[b] * worth[a]) is var r && r != 0 ? r : a.CompareTo(b));
                covers[(weights, c)] = cheap;
            }

            Int128 left = need[c];
            Int128 sum = 0;
            foreach (var k in cheap)
            {
                if (rank[k] < j)
                {
                    continue;
                }

                var full = (Int128)problem.Limit[k] * worth[k];
                if (left <= full)
                {
                    sum += ((left * weights[k]) + worth[k] - 1) / worth[k];
                    left = 0;
                    break;
                }

                sum += (Int128)problem.Limit[k] * weights[k];
                left -= full;
            }

            if (0 < left)
            {
                return long.MaxValue;
            }

            least = Int128.Max(least, sum);
        }

        return least < long.MaxValue ? (long)least : long.MaxValue;
    }

    private bool RuledOut()
    {
        if (!openOnes)
        {
            foreach (var g in skipped)
            {
                if (g.AsSpan().SequenceEqual(now))
                {
                    return true;
                }
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
