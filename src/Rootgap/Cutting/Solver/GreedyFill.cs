namespace Rootgap.Cutting.Solver;

/// <summary>
/// Fills bar after bar as well as it can, several rounds; pieces that were hard to use well gain value for the next round
/// (sequential value correction, Mukhacheva et al. 2000; Belov and Scheithauer 2007). Repeats exactly: the chance in it is seeded.
/// </summary>
internal sealed class GreedyFill(PackingProblem problem)
{
    private readonly Knapsack knapsack = new();
    private readonly int[] demand = new int[problem.Kinds];
    private readonly long[] prices = new long[problem.Kinds];
    private readonly double[] value = new double[problem.Kinds];

    /// <summary>Lays the demanded pieces into the given bars, or returns null when no round managed to.</summary>
    public List<(Pattern Pattern, int Times)>? Pack(int[] wanted, int[] bars, int rounds, Effort effort, int seed = 1, int steps = 2000)
    {
        var random = new Random(seed);
        for (var i = 0; i < value.Length; i++)
        {
            value[i] = problem.Length[i];
        }

        for (var round = 0; round < rounds; round++)
        {
            if (0 < round && effort.Spent)
            {
                return null;
            }

            if (Round(wanted, bars, round, random, steps, effort) is { } packed)
            {
                return packed;
            }
        }

        return null;
    }

    private List<(Pattern Pattern, int Times)>? Round(int[] wanted, int[] bars, int round, Random random, int steps, Effort effort)
    {
        Array.Copy(wanted, demand, demand.Length);
        long left = 0;
        long pieces = 0;
        for (var i = 0; i < demand.Length; i++)
        {
            left += demand[i] * problem.Length[i];
            pieces += demand[i];
        }

        var free = (int[])bars.Clone();
        long room = 0;
        for (var k = 0; k < free.Length; k++)
        {
            room += free[k] * problem.Capacity[k];
        }

        var result = new List<(Pattern, int)>();
        var power = round == 0 ? 1.0 : 1.0 + (0.06 * random.NextDouble());
        while (0 < pieces)
        {
            if (room < left || (steps > 20_000 && effort.Spent))
            {
                return null;
            }

            var type = Next(free, round, random);
            if (type < 0)
            {
                return null;
            }

            for (var i = 0; i < prices.Length; i++)
            {
                prices[i] = demand[i] < 1 ? 0 : (long)(value[i] * 1000);
            }

            if (!knapsack.Solve(problem, type, prices, demand, 0, steps: steps))
            {
                room -= free[type] * problem.Capacity[type];
                free[type] = 0;
                continue;
            }

            var (kinds, counts) = knapsack.Filling();
            var pattern = new Pattern(type, kinds, counts);
            var times = free[type];
            for (var i = 0; i < kinds.Length; i++)
            {
                times = Math.Min(times, demand[kinds[i]] / counts[i]);
            }

            if (1 < times && (round & 1) == 1)
            {
                times = (times + 1) / 2;
            }

            var used = pattern.Used(problem);
            for (var i = 0; i < kinds.Length; i++)
            {
                var kind = kinds[i];
                demand[kind] -= times * counts[i];
                pieces -= times * counts[i];
                var target = Math.Pow(problem.Length[kind], power) * problem.Capacity[type] / used;
                var weight = (double)counts[i] * times / (counts[i] * times + wanted[kind] + demand[kind]);
                value[kind] += weight * (target - value[kind]);
            }

            left -= used * times;
            free[type] -= times;
            room -= times * problem.Capacity[type];
            result.Add((pattern, times));
        }

        return result;
    }

    // Which type of bar is filled next: shortest first, longest first, then by chance.
    private int Next(int[] free, int round, Random random)
    {
        var chosen = -1;
        var offset = 2 <= round && 1 < free.Length ? random.Next(free.Length) : 0;
        for (var q = 0; q < free.Length; q++)
        {
            var k = (q + offset) % free.Length;
            if (free[k] < 1)
            {
                continue;
            }

            if (chosen < 0 || (round == 0 && problem.Capacity[k] < problem.Capacity[chosen]) || (round == 1 && problem.Capacity[chosen] < problem.Capacity[k]))
            {
                chosen = k;
            }

            if (2 <= round)
            {
                break;
            }
        }

        return chosen;
    }

    /// <summary>First-fit or best-fit decreasing (Johnson 1973), each new bar of the first type in the order that takes the piece: where every plan starts.</summary>
    public static Packing? Decreasing(PackingProblem problem, int[] typeOrder, bool isBestFit)
    {
        var free = (int[])problem.Limit.Clone();
        var open = new List<(int Type, List<int> Kinds)>();
        var room = new List<long>();
        for (var i = 0; i < problem.Kinds; i++)
        {
            var from = 0;
            for (var copy = 0; copy < problem.Demand[i]; copy++)
            {
                var at = -1;
                for (var b = from; b < open.Count; b++)
                {
                    if (problem.Length[i] <= room[b] && (at < 0 || room[b] < room[at]) && problem.Fits(open[b].Type, i))
                    {
                        at = b;
                        if (!isBestFit || room[b] == problem.Length[i])
                        {
                            break;
                        }
                    }
                }

                if (at < 0)
                {
                    var type = Array.FindIndex(typeOrder, k => 0 < free[k] && problem.Fits(k, i));
                    if (type < 0)
                    {
                        return null;
                    }

                    type = typeOrder[type];
                    free[type]--;
                    at = open.Count;
                    open.Add((type, []));
                    room.Add(problem.Capacity[type]);
                }

                from = isBestFit ? 0 : at;
                room[at] -= problem.Length[i];
                open[at].Kinds.Add(i);
            }
        }

        return new Packing([.. open.Select(b => (ToPattern(b.Type, b.Kinds), 1))]);
    }

    public static Pattern ToPattern(int type, List<int> kinds)
    {
        var groups = kinds.GroupBy(k => k).OrderBy(g => g.Key).ToArray();
        return new Pattern(type, [.. groups.Select(g => g.Key)], [.. groups.Select(g => g.Count())]);
    }
}
