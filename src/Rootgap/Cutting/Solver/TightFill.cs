namespace Rootgap.Cutting.Solver;

/// <summary>
/// Fills bar after bar as tightly as the pieces left allow, each beginning with the longest piece left (minimum bin slack, Gupta and Ho 1999;
/// Fleszar and Hindi 2002): for many different lengths, where almost every bar can be filled almost to the end. A bar may waste its share of what
/// all the bars have to spare; the short pieces stay for the end.
/// </summary>
internal sealed class TightFill(PackingProblem problem)
{
    private readonly int[] left = new int[problem.Kinds];
    private readonly List<int> take = [];
    private readonly List<int> best = [];
    private long bestRoom;
    private int steps;

    /// <summary>The pieces in these bars; null where they did not all go in.</summary>
    /// <param name="bars">How many of each type.</param>
    /// <param name="effort">When to stop.</param>
    /// <param name="way">0: long bars first, then in turn short first and mixed.</param>
    /// <param name="most">Steps of the search in each bar.</param>
    public List<(Pattern Pattern, int Times)>? Pack(int[] bars, Effort effort, int way, int most)
    {
        Array.Copy(problem.Demand, left, left.Length);
        long pieces = 0;
        Int128 spare = 0;
        for (var i = 0; i < left.Length; i++)
        {
            pieces += left[i];
            spare -= (Int128)left[i] * problem.Length[i];
        }

        var queue = new List<int>();
        for (var k = 0; k < bars.Length; k++)
        {
            spare += (Int128)bars[k] * problem.Capacity[k];
            for (var n = 0; n < bars[k]; n++)
            {
                queue.Add(k);
            }
        }

        var random = new Random(way);
        var turn = way switch
        {
            0 => queue.OrderByDescending(k => problem.Capacity[k]).ToArray(),
            1 => [.. queue.OrderBy(k => problem.Capacity[k])],
            _ => [.. queue.OrderBy(_ => random.Next())],
        };
        var result = new List<(Pattern, int)>();
        for (var b = 0; b < turn.Length && 0 < pieces; b++)
        {
            if (spare < 0 || ((b & 15) == 0 && effort.Spent))
            {
                return null;
            }

            var k = turn[b];
            var first = First(0);
            while (first < left.Length && !problem.Fits(k, first))
            {
                first = First(first + 1);
            }

            if (first == left.Length)
            {
                spare -= problem.Capacity[k];
                continue;
            }

            take.Clear();
            best.Clear();
            bestRoom = long.MaxValue;
            steps = most;
            Fill(k, first, problem.Capacity[k], (long)(spare / (turn.Length - b) / 2));
            foreach (var i in best)
            {
                left[i]--;
            }

            pieces -= best.Count;
            spare -= bestRoom;
            result.Add((GreedyFill.ToPattern(k, best), 1));
        }

        return pieces == 0 ? result : null;
    }

    // Takes kind i, then goes on with what fits beside it, the longest first. True when the bar is full enough.
    private bool Fill(int k, int i, long room, long enough)
    {
        take.Add(i);
        left[i]--;
        room -= problem.Length[i];
        var isFull = true;
        var done = false;
        for (var j = First(Math.Max(i, FirstWithin(room, i))); j < left.Length; j = First(j + 1))
        {
            if (!problem.Fits(k, j))
            {
                continue;
            }

            isFull = false;
            if (--steps < 0)
            {
                break;
            }

            done = Fill(k, j, room, enough);
            if (done || steps < 0)
            {
                break;
            }
        }

        if ((isFull || best.Count == 0 || steps < 0) && room < bestRoom)
        {
            bestRoom = room;
            best.Clear();
            best.AddRange(take);
            done |= room <= enough;
        }

        take.RemoveAt(take.Count - 1);
        left[i]++;
        return done;
    }

    // Lengths go down: the first kind from i on that is no longer than the room.
    private int FirstWithin(long room, int i)
    {
        var low = i;
        var high = left.Length;
        while (low < high)
        {
            var middle = (low + high) / 2;
            if (problem.Length[middle] <= room)
            {
                high = middle;
            }
            else
            {
                low = middle + 1;
            }
        }

        return low;
    }

    // The first kind from i on of which pieces are left.
    private int First(int i)
    {
        while (i < left.Length && left[i] == 0)
        {
            i++;
        }

        return i;
    }
}
