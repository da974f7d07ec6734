using Rootgap.Cutting.Solver;

namespace Rootgap.Tests.Cutting;

/// <summary>Where the search says that pieces do not go into some bars, there is no plan: tried on tasks made from a plan, which therefore exists.</summary>
public class SettledTest
{
    // The relaxation's prices, the list of what a plan can contain, and branch and bound on it; null where the relaxation or the list was not to be had.
    private static CoverSearch? Cover(PackingProblem problem, int bars, bool isFull, Func<long, long>? dearer = null)
    {
        var lp = new PatternLp(problem);
        lp.Start(problem.Demand, [PackingProblem.Plenty], [1], limitRows: false);
        lp.Solve(Effort.Unlimited);
        long[] prices = [.. lp.Prices.Select(dearer ?? (p => p))];
        var knapsack = new Knapsack();
        knapsack.Solve(problem, 0, prices, problem.Demand, 0, complete: true);
        var certificate = Certificate.Of(problem, prices, [knapsack.AtMost])!;
        var spare = certificate.Spare([bars])!.Value;
        if (spare < 0 || PatternList.Worthy(problem, 0, prices, certificate.Worth[0] - spare, isFull, 5000, Effort.Unlimited) is not { } list)
            return null;
        return new CoverSearch(problem, [bars], list, [.. prices.Select(p => !isFull || spare < p)], Effort.Unlimited, 2000);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void A_piece_that_full_patterns_hold_twice_does_not_hide_the_plan(bool isFull)
    {
        // Three bars of 1430: 352 309 434 220 | 684 331 330 28 | 463 456 217 217. The short piece goes beside several of them.
        var problem = PackingProblem.Classic([.. ((long[])[352, 309, 434, 220, 684, 331, 330, 28, 463, 456, 217, 217]).Select(l => (l, 1))], 1430);
        var search = Cover(problem, 3, isFull)!;
        Assert.NotNull(search.Run());
    }

    [Fact]
    public void What_is_made_from_a_plan_is_never_said_to_have_none() => (
        from bars in Gen.Int[2, 5]
        from bar in Gen.Int[100, 1500]
        from cuts in Gen.Double[0.02, 1].Array[5].Array[5]
        from counts in Gen.Int[2, 5].Array[5]
        from waste in Gen.Double[0, 0.08].Array[5]
        from uneven in Gen.Int[0, 3]
        from isFull in Gen.Bool
        select (bars, bar, cuts, counts, waste, uneven, isFull)).Sample(
        t =>
        {
            var lengths = new List<(long, int)>();
            for (var b = 0; b < t.bars; b++)
            {
                var parts = t.cuts[b].Take(t.counts[b]).ToArray();
                var scale = t.bar * (1 - t.waste[b]) / parts.Sum();
                lengths.AddRange(parts.Select(p => (Math.Max(1L, (long)(p * scale)), 1)).Where(p => p.Item1 <= t.bar));
            }

            var problem = PackingProblem.Classic(lengths, t.bar);
            // Any prices will do for a proof: those of the relaxation, and some that are worse.
            if (Cover(problem, t.bars, t.isFull, p => p - (p % (1 + (t.uneven * 10_000_000L)))) is not { } search)
                return;
            var plan = search.Run();
            Assert.False(plan is null && search.Settled, "the plan that the task was made from was not found, and said not to be there");
            if (plan is not null)
                Assert.True(PublishedInstancesTest.CheckPacking(problem, new Packing(plan)) <= t.bars);
            var (packed, settled) = ExactPacking.Solve(problem, [t.bars], [], Effort.Unlimited, 200_000);
            Assert.False(packed is null && settled);
        },
        iter: Cases.Of(400), threads: 1);
}
