using Google.OrTools.Sat;
using Rootgap.Cutting.Solver;

namespace Rootgap.Judge.Tests;

/// <summary>Middle-sized tasks with several lengths of bar, some in limited number, against an independent solver (CP-SAT of Google OR-Tools 9.15).</summary>
public class CuttingJudgeTest
{
    private static readonly Gen<PackingProblem> Middle =
        from capacities in Gen.Long[40, 130].Array[1, 4]
        from limits in Gen.Int[0, 4].Array[4]
        from lengths in Gen.Long[8, 75].Array[6, 14]
        select Problem(capacities, limits, lengths);

    private static PackingProblem Problem(long[] capacities, int[] limits, long[] lengths)
    {
        var kinds = lengths.GroupBy(l => l).OrderByDescending(g => g.Key).ToArray();
        return new PackingProblem
        {
            Length = [.. kinds.Select(k => k.Key)],
            Demand = [.. kinds.Select(k => k.Count())],
            Capacity = capacities,
            Limit = [.. capacities.Select((_, k) => limits[k] == 0 ? PackingProblem.Plenty : limits[k])],
            Goals = [[.. capacities.Select(_ => 1L)], capacities],
        };
    }

    [Fact]
    public void The_judge_finds_no_better_plan_and_none_where_there_is_none() => Middle.Sample(
        problem =>
        {
            var result = new BarSearch(problem, Effort.Unlimited).Run();
            var (status, best, bound) = Judge(problem);
            Assert.True(result.Proven != result.Impossible, "a task of this size is settled");
            if (result.Impossible)
            {
                Assert.True(status is CpSolverStatus.Infeasible or CpSolverStatus.Unknown, "the judge has a plan where we said there is none");
                return;
            }

            // Where the judge ran out of time, ours must still lie between its bound and its plan.
            var used = result.Best!.CountByType(problem.Types);
            var ours = used.Select((n, k) => n * (problem.Goals[1][k] + Bar)).Sum();
            Assert.NotEqual(CpSolverStatus.Infeasible, status);
            Assert.True(bound <= ours, "the judge's bound is above our plan");
            Assert.True(status == CpSolverStatus.Unknown || ours <= best, "the judge's plan is better");
        },
        iter: 50, threads: 1);

    private const long Bar = 1_000_000; // a bar counts more than any length of steel

    // Fewest bars, then least steel.
    private static (CpSolverStatus Status, long Best, double Bound) Judge(PackingProblem problem)
    {
        var pieces = problem.Length.SelectMany((l, i) => Enumerable.Repeat(l, problem.Demand[i])).ToArray();
        var bars = problem.Capacity.SelectMany((c, k) => Enumerable.Repeat(c, Math.Min(problem.Limit[k], pieces.Length))).ToArray();
        var model = new CpModel();
        var used = bars.Select((_, b) => model.NewBoolVar($"bar {b}")).ToArray();
        var inside = pieces.Select((_, p) => bars.Select((_, b) => model.NewBoolVar($"{p} in {b}")).ToArray()).ToArray();
        foreach (var choices in inside)
            model.AddExactlyOne(choices);
        for (var b = 0; b < bars.Length; b++)
        {
            model.Add(LinearExpr.WeightedSum(inside.Select(x => x[b]), pieces) <= bars[b] * used[b]);
            if (b > 0 && bars[b] == bars[b - 1])
                model.AddImplication(used[b], used[b - 1]);
        }

        model.Minimize(LinearExpr.WeightedSum(used, bars.Select(c => c + Bar)));
        var solver = new CpSolver { StringParameters = "num_workers:1,random_seed:1,max_deterministic_time:4" };
        var status = solver.Solve(model);
        return status is CpSolverStatus.Optimal or CpSolverStatus.Feasible
            ? (status, (long)Math.Round(solver.ObjectiveValue), solver.BestObjectiveBound - 0.5)
            : (status, long.MaxValue, 0);
    }
}
