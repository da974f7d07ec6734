using Rootgap.Cutting.Solver;

namespace Rootgap.Tests.Cutting;

/// <summary>Small tasks against trying everything: the plan is as good as the best there is, and a claim of proof is never wrong.</summary>
public class BruteForceTest
{
    private static readonly Gen<PackingProblem> Small =
        from capacities in Gen.Long[5, 30].Array[1, 3]
        from limits in Gen.Int[0, 3].Array[3]
        from costs in Gen.Long[1, 9].Array[3]
        from lengths in Gen.Long[1, 20].Array[1, 7]
        from withHeats in Gen.Bool
        from right in Gen.Bool.Array[21]
        select Problem(capacities, limits, costs, lengths, withHeats ? right : null);

    private static PackingProblem Problem(long[] capacities, int[] limits, long[] costs, long[] lengths, bool[]? right)
    {
        var kinds = lengths.GroupBy(l => l).OrderByDescending(g => g.Key).ToArray();
        return new PackingProblem
        {
            Length = [.. kinds.Select(k => k.Key)],
            Demand = [.. kinds.Select(k => k.Count())],
            Capacity = capacities,
            Limit = [.. capacities.Select((_, k) => limits[k] == 0 ? PackingProblem.Plenty : limits[k])],
            Goals = [[.. capacities.Select(_ => 1L)], [.. capacities.Select((_, k) => costs[k])]],
            Allowed = right is null ? null : [.. capacities.Select((_, k) => kinds.Select((_, i) => i % 2 == 0 || right[(k * 7) + i]).ToArray())],
        };
    }

    [Fact]
    public void Small_tasks_are_settled_as_trying_everything_settles_them() => Small.Holds(
        problem =>
        {
            var (first, second) = Best(problem);
            var fits = Enumerable.Range(0, problem.Kinds).All(i => Enumerable.Range(0, problem.Types).Any(k => problem.Fits(k, i)));
            if (!fits)
                return;
            var result = new BarSearch(problem, Effort.Unlimited).Run();
            if (first == long.MaxValue)
            {
                Assert.True(result.Impossible);
                Assert.Null(result.Best);
                return;
            }

            Assert.True(result.Proven);
            PublishedInstancesTest.CheckPacking(problem, result.Best!);
            var used = result.Best!.CountByType(problem.Types);
            Assert.Equal([first, second], problem.ValueOf(used));
            Assert.Equal([first, second], result.Bound);
        },
        iter: Cases.Of(1500), threads: 1);

    // Each piece in turn into every open bar or a new one of every type.
    private static (long First, long Second) Best(PackingProblem problem)
    {
        var pieces = Enumerable.Range(0, problem.Kinds).SelectMany(i => Enumerable.Repeat(i, problem.Demand[i])).ToArray();
        var room = new List<(int Type, long Left)>();
        var free = (int[])problem.Limit.Clone();
        var best = (long.MaxValue, long.MaxValue);
        Place(0, 0, 0);
        return best;

        void Place(int p, long first, long second)
        {
            if (best.CompareTo((first, second)) <= 0)
                return;
            if (p == pieces.Length)
            {
                best = (first, second);
                return;
            }

            var i = pieces[p];
            for (var b = 0; b < room.Count; b++)
            {
                var (type, left) = room[b];
                if (problem.Length[i] <= left && problem.Fits(type, i))
                {
                    room[b] = (type, left - problem.Length[i]);
                    Place(p + 1, first, second);
                    room[b] = (type, left);
                }
            }

            for (var k = 0; k < problem.Types; k++)
            {
                if (0 < free[k] && problem.Fits(k, i))
                {
                    free[k]--;
                    room.Add((k, problem.Capacity[k] - problem.Length[i]));
                    Place(p + 1, first + problem.Goals[0][k], second + problem.Goals[1][k]);
                    room.RemoveAt(room.Count - 1);
                    free[k]++;
                }
            }
        }
    }

    // A certificate is a claim that anyone can add up: here it is added up.
    [Fact]
    public void Certificates_hold_no_bar_can_be_filled_above_its_worth() => Small.Holds(
        problem =>
        {
            var result = new BarSearch(problem, Effort.Unlimited).Run();
            foreach (var c in result.Certificates)
            {
                Assert.Equal(c.Total, c.Prices.Select((p, i) => p * problem.Demand[i]).Sum());
                for (var k = 0; k < problem.Types; k++)
                    Assert.True(MostWorth(problem, k, c.Prices, 0, problem.Capacity[k]) <= c.Worth[k]);
            }
        },
        iter: Cases.Of(300), threads: 1);

    private static long MostWorth(PackingProblem problem, int type, long[] prices, int i, long room)
    {
        if (i == problem.Kinds)
            return 0;
        long best = 0;
        for (var n = 0; n <= problem.Demand[i] && n * problem.Length[i] <= room; n++)
        {
            if (n == 0 || problem.Fits(type, i))
                best = Math.Max(best, (n * prices[i]) + MostWorth(problem, type, prices, i + 1, room - (n * problem.Length[i])));
        }

        return best;
    }
}
