namespace Rootgap.Cutting.Solver;

/// <summary>
/// Settles by exhaustive search whether the pieces can be laid into a given set of bars. The longest piece left goes into some bar,
/// with every filling that leaves no room for another piece (bin completion, Korf 2003); a filling may waste, in length and in price, no
/// more than what all the bars together can spare; states found hopeless are remembered.
/// </summary>
internal sealed class ExactPacking
{
    private readonly PackingProblem problem;
    private readonly int[] demand;
    private readonly int[] free;
    private readonly Certificate[] certificates;
    private readonly long[] spare;
    private readonly HashSet<UInt128> hopeless = [];
    private readonly List<Pattern> path = [];
    private readonly int[] typeOrder;
    private readonly Effort effort;
    private readonly UInt128[] key;
    private readonly UInt128[] typeKey;
    private long steps;
    private long left;

    private ExactPacking(PackingProblem problem, int[] bars, IEnumerable<Certificate> certificates, Effort effort, long steps)
    {
        this.problem = problem;
        this.effort = effort;
        this.steps = steps;
        demand = [.. problem.Demand];
        free = [.. bars];
        left = problem.Pieces;
        this.certificates = [.. certificates.Where(c => c.Spare(bars) is not null)];
        spare = [.. this.certificates.Select(c => c.Spare(bars)!.Value)];
        typeOrder = [.. Enumerable.Range(0, problem.Types).OrderBy(k => problem.Capacity[k])];
        var random = new Random(7);
        key = new UInt128[problem.Kinds];
        for (var i = 0; i < key.Length; i++)
        {
            key[i] = new UInt128((ulong)random.NextInt64(), (ulong)random.NextInt64() | 1);
        }

        typeKey = new UInt128[problem.Types];
        for (var k = 0; k < typeKey.Length; k++)
        {
            typeKey[k] = new UInt128((ulong)random.NextInt64(), (ulong)random.NextInt64() | 1);
        }
    }

    /// <summary>The packing; or null, and then Settled says whether there is none (true) or the search was cut short (false).</summary>
    public static (List<(Pattern, int)>? Packed, bool Settled) Solve(PackingProblem problem, int[] bars, IReadOnlyList<Certificate> certificates, Effort effort, long steps)
    {
        var search = new ExactPacking(problem, bars, certificates, effort, steps);
        if (search.spare.Any(s => s < 0))
        {
            return (null, true);
        }

        var found = search.Bar();
        return found ? ([.. search.path.Select(p => (p, 1))], true) : (null, 0 < search.steps);
    }

    private bool Bar()
    {
        if (left == 0)
        {
            return true;
        }

        var state = State();
        if (hopeless.Contains(state))
        {
            return false;
        }

        var longest = 0;
        while (demand[longest] == 0)
        {
            longest++;
        }

        foreach (var k in typeOrder)
        {
            if (0 < free[k] && problem.Fits(k, longest))
            {
                free[k]--;
                var take = new int[problem.Kinds];
                demand[longest]--;
                take[longest] = 1;
                left--;
                if (Fill(k, longest, problem.Capacity[k] - problem.Length[longest], take, Waste(k, longest)))
                {
                    return true;
                }

                left++;
                demand[longest]++;
                free[k]++;
            }
        }

        if (0 < steps && hopeless.Count < 2_000_000)
        {
            hopeless.Add(state);
        }

        return false;
    }

    private long[] Waste(int k, int kind)
    {
        var waste = new long[certificates.Length];
        for (var c = 0; c < waste.Length; c++)
        {
            waste[c] = certificates[c].Worth[k] - certificates[c].Prices[kind];
        }

        return waste;
    }

    // Goes on filling a bar of type k with kinds from `from` on; `waste` is what the bar is worth less what lies in it.
    private bool Fill(int k, int from, long room, int[] take, long[] waste)
    {
        if (--steps <= 0 || ((steps & 1023) == 0 && effort.Spent))
        {
            steps = 0;
            return false;
        }

        var i = from;
        while (i < demand.Length && (demand[i] == 0 || room < problem.Length[i] || !problem.Fits(k, i)))
        {
            i++;
        }

        if (i == demand.Length)
        {
            return Close(k, room, take, waste);
        }

        // What is still to come cannot bring the waste within what may be spared?
        for (var c = 0; c < waste.Length; c++)
        {
            if (spare[c] < waste[c] && MostWorth(c, k, i, room) < waste[c] - spare[c])
            {
                return false;
            }
        }

        var most = (int)Math.Min(demand[i], room / problem.Length[i]);
        for (var t = most; t >= 0; t--)
        {
            demand[i] -= t;
            take[i] += t;
            left -= t;
            for (var c = 0; c < waste.Length; c++)
            {
                waste[c] -= t * certificates[c].Prices[i];
            }

            var found = Fill(k, i + 1, room - t * problem.Length[i], take, waste);
            if (found)
            {
                return true;
            }

            for (var c = 0; c < waste.Length; c++)
            {
                waste[c] += t * certificates[c].Prices[i];
            }

            left += t;
            take[i] -= t;
            demand[i] += t;
            if (steps <= 0)
            {
                return false;
            }
        }

        return false;
    }

    // The most that the kinds from i on can still add in price: each at most as if the room were full of it, rounded up.
    private Int128 MostWorth(int c, int k, int i, long room)
    {
        var prices = certificates[c].Prices;
        long price = 0;
        long length = 1;
        for (; i < demand.Length; i++)
        {
            if (0 < demand[i] && problem.Length[i] <= room && problem.Fits(k, i) && (Int128)price * problem.Length[i] < (Int128)prices[i] * length)
            {
                (price, length) = (prices[i], problem.Length[i]);
            }
        }

        return ((Int128)room * price / length) + 1;
    }

    private bool Close(int k, long room, int[] take, long[] waste)
    {
        for (var c = 0; c < waste.Length; c++)
        {
            if (spare[c] < waste[c])
            {
                return false;
            }
        }

        // Room for another piece left: another filling of this search holds it.
        for (var i = demand.Length - 1; i >= 0 && problem.Length[i] <= room; i--)
        {
            if (0 < demand[i] && problem.Fits(k, i))
            {
                return false;
            }
        }

        for (var c = 0; c < waste.Length; c++)
        {
            spare[c] -= waste[c];
        }

        var kinds = new List<int>();
        for (var i = 0; i < take.Length; i++)
        {
            if (0 < take[i])
            {
                kinds.Add(i);
            }
        }

        path.Add(new Pattern(k, [.. kinds], [.. kinds.Select(i => take[i])]));
        if (Bar())
        {
            return true;
        }

        path.RemoveAt(path.Count - 1);
        for (var c = 0; c < waste.Length; c++)
        {
            spare[c] += waste[c];
        }

        return false;
    }

    // The pieces and bars left tell the state; the spare follows from them.
    private UInt128 State()
    {
        UInt128 h = 0;
        for (var i = 0; i < demand.Length; i++)
        {
            h += key[i] * (UInt128)(uint)demand[i];
        }

        for (var k = 0; k < free.Length; k++)
        {
            h += typeKey[k] * (UInt128)(uint)free[k];
        }

        return h;
    }
}
