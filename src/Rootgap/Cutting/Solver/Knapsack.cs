namespace Rootgap.Cutting.Solver;

/// <summary>
/// The best filling of one bar at given prices of the pieces: a bounded knapsack in whole numbers.
/// Depth-first with the fractional bound (Dantzig 1957; Martello and Toth 1990, ch. 3); when that takes too many steps,
/// dynamic programming over the length (Gilmore and Gomory 1966).
/// </summary>
internal sealed class Knapsack
{
    private int[] order = [];
    private long[] length = [];
    private long[] value = [];
    private int[] most = [];
    private double[] density = []; // for the order only: no bound hangs on it
    private bool isWide;
    private long[] shortest = [];
    private int[] take = [];
    private int[] best = [];
    private int n;

    /// <summary>Value of the filling found.</summary>
    public long Value { get; private set; }

    /// <summary>No filling is worth more than this. Equal to <see cref="Value"/> when the search was complete.</summary>
    public long AtMost { get; private set; }

    /// <summary>The filling found: kinds and how many of each.</summary>
    public (int[] Kinds, int[] Counts) Filling()
    {
        var used = 0;
        for (var j = 0; j < n; j++)
        {
            used += best[j] > 0 ? 1 : 0;
        }

        var kinds = new int[used];
        var counts = new int[used];
        used = 0;
        for (var j = 0; j < n; j++)
        {
            if (best[j] > 0)
            {
                kinds[used] = order[j];
                counts[used++] = best[j];
            }
        }

        Array.Sort(kinds, counts);
        return (kinds, counts);
    }

    /// <summary>
    /// Looks for the most valuable filling that is worth more than <paramref name="floor"/>.
    /// Stops at the first one worth <paramref name="enough"/>.
    /// </summary>
    /// <returns>True when a filling above the floor was found.</returns>
    public bool Solve(PackingProblem problem, int type, long[] prices, int[] demand, long floor, long enough = long.MaxValue, bool complete = false, int steps = 200_000)
    {
        var capacity = problem.Capacity[type];
        Gather(problem, type, prices, demand, capacity, floor);
        Value = floor;
        AtMost = floor;
        if (n == 0)
        {
            return false;
        }

        Array.Clear(best, 0, n);
        if (Search(capacity, floor, enough, steps, out var value))
        {
            Value = value;
            AtMost = Math.Max(floor, value);
            return floor < value;
        }

        // Out of steps. What was found may be good enough to go on with; otherwise settle it by dynamic programming.
        if (!complete && floor < value)
        {
            Value = value;
            AtMost = Bound(capacity);
            return true;
        }

        if (Table(capacity, out var exact))
        {
            Value = exact;
            AtMost = Math.Max(floor, exact);
            return floor < exact;
        }

        Value = Math.Max(floor, value);
        AtMost = Math.Max(Value, Bound(capacity));
        return floor < value;
    }

    private void Gather(PackingProblem problem, int type, long[] prices, int[] demand, long capacity, long floor)
    {
        var kinds = problem.Kinds;
        if (order.Length < kinds)
        {
            order = new int[kinds];
            length = new long[kinds];
            value = new long[kinds];
            most = new int[kinds];
            density = new double[kinds];
            take = new int[kinds];
            best = new int[kinds];
            shortest = new long[kinds + 1];
        }

        n = 0;
        for (var i = 0; i < kinds; i++)
        {
            if (0 < prices[i] && 0 < demand[i] && problem.Fits(type, i))
            {
                order[n] = i;
                density[n++] = -(double)prices[i] / problem.Length[i];
            }
        }

        Array.Sort(density, order, 0, n);
        shortest[n] = long.MaxValue;
        long dearest = 0;
        for (var j = n - 1; j >= 0; j--)
        {
            var i = order[j];
            length[j] = problem.Length[i];
            value[j] = prices[i];
            most[j] = (int)Math.Min(demand[i], capacity / length[j]);
            dearest = Math.Max(dearest, value[j]);
            shortest[j] = Math.Min(shortest[j + 1], length[j]);
        }

        // What a bar can hold is at most the dearest piece times the most pieces; the products in CanBeat are that, or the floor, times a length.
        var pieces = n == 0 ? 0 : capacity / shortest[0];
        isWide = n > 0 && long.MaxValue / 8 / capacity <= Math.Max(floor, dearest > long.MaxValue / 8 / Math.Max(1, pieces) ? long.MaxValue : dearest * pieces);
        OrderExactly();
    }

    // Ratios that doubles cannot tell apart are put in order by cross-multiplication, so that the fractional bound is one.
    private void OrderExactly()
    {
        for (var j = 1; j < n; j++)
        {
            for (var q = j; q > 0 && (Int128)value[q - 1] * length[q] < (Int128)value[q] * length[q - 1]; q--)
            {
                (order[q], order[q - 1]) = (order[q - 1], order[q]);
                (length[q], length[q - 1]) = (length[q - 1], length[q]);
                (value[q], value[q - 1]) = (value[q - 1], value[q]);
                (most[q], most[q - 1]) = (most[q - 1], most[q]);
            }
        }

        for (var j = n - 1; j >= 0; j--)
        {
            shortest[j] = Math.Min(shortest[j + 1], length[j]);
        }
    }

    // Whole copies while they last, then a fraction of the next, rounded up: in whole numbers.
    private long Bound(long capacity)
    {
        Int128 worth = 0;
        var room = capacity;
        for (var j = 0; j < n; j++)
        {
            var t = Math.Min(most[j], room / length[j]);
            worth += (Int128)t * value[j];
            room -= t * length[j];
            if (t < most[j])
            {
                worth += ((Int128)room * value[j] / length[j]) + 1;
                break;
            }
        }

        return worth < long.MaxValue ? (long)worth : long.MaxValue;
    }

    private bool Search(long capacity, long floor, long enough, int steps, out long bestValue)
    {
        bestValue = floor;
        long worth = 0;
        var room = capacity;
        var j = 0;
        while (true)
        {
            for (; j < n; j++)
            {
                if (room < shortest[j])
                {
                    break;
                }

                if (!CanBeat(j, room, bestValue - worth))
                {
                    goto back;
                }

                if (--steps < 0)
                {
                    return false;
                }

                var t = (int)Math.Min(most[j], room / length[j]);
                take[j] = t;
                room -= t * length[j];
                worth += t * value[j];
            }

            if (bestValue < worth)
            {
                bestValue = worth;
                Array.Copy(take, best, j);
                Array.Clear(best, j, n - j);
                if (enough <= worth)
                {
                    return true;
                }
            }

            back:
            for (j--; j >= 0 && take[j] == 0; j--)
            {
            }

            if (j < 0)
            {
                return true;
            }

            take[j]--;
            room += length[j];
            worth -= value[j];
            j++;
        }
    }

    // Can what is left, from item j on, add more than `missing`? Exactly: a fraction of the next item counts as the whole number below it.
    private bool CanBeat(int j, long room, long missing)
    {
        if (missing < 0)
        {
            return true;
        }

        if (isWide)
        {
            return CanBeatWide(j, room, missing);
        }

        if (room * value[j] < (missing + 1) * length[j])
        {
            return false;
        }

        for (; j < n; j++)
        {
            var full = most[j] * length[j];
            if (room < full)
            {
                return (missing + 1) * length[j] <= room * value[j];
            }

            missing -= most[j] * value[j];
            if (missing < 0)
            {
                return true;
            }

            room -= full;
            if (room == 0)
            {
                return false;
            }
        }

        return false;
    }

    // The same where the products pass what a long holds.
    private bool CanBeatWide(int j, long room, long missing)
    {
        for (; j < n; j++)
        {
            var full = most[j] * length[j];
            if (room < full)
            {
                return ((Int128)missing + 1) * length[j] <= (Int128)room * value[j];
            }

            missing -= most[j] * value[j];
            if (missing < 0)
            {
                return true;
            }

            room -= full;
            if (room == 0)
            {
                return false;
            }
        }

        return false;
    }

    private long[] table = [];
    private int[] chosen = [];

    private bool Table(long capacity, out long exact)
    {
        exact = 0;
        var chunks = new List<(int Item, int Copies)>();
        for (var j = 0; j < n; j++)
        {
            for (int left = most[j], c = 1; left > 0; left -= c, c *= 2)
            {
                c = Math.Min(c, left);
                chunks.Add((j, c));
            }
        }

        if (40_000_000 < capacity * chunks.Count)
        {
            return false;
        }

        var width = (int)capacity + 1;
        if (table.Length < width)
        {
            table = new long[width];
        }

        Array.Clear(table, 0, width);
        var words = (width + 31) / 32;
        if (chosen.Length < words * chunks.Count)
        {
            chosen = new int[words * chunks.Count];
        }

        Array.Clear(chosen, 0, words * chunks.Count);
        for (var q = 0; q < chunks.Count; q++)
        {
            var (j, copies) = chunks[q];
            var len = (int)(length[j] * copies);
            var val = value[j] * copies;
            var row = q * words;
            for (var c = width - 1; c >= len; c--)
            {
                var with = table[c - len] + val;
                if (table[c] < with)
                {
                    table[c] = with;
                    chosen[row + (c >> 5)] |= 1 << (c & 31);
                }
            }
        }

        exact = table[width - 1];
        Array.Clear(best, 0, n);
        var at = width - 1;
        for (var q = chunks.Count - 1; q >= 0; q--)
        {
            if ((chosen[q * words + (at >> 5)] & (1 << (at & 31))) != 0)
            {
                best[chunks[q].Item] += chunks[q].Copies;
                at -= (int)(length[chunks[q].Item] * chunks[q].Copies);
            }
        }

        return true;
    }
}
