using System.Globalization;
using Google.OrTools.Sat;
using Rootgap.Cutting;

namespace Rootgap.Bench.Cutting;

/// <summary>The same jobs, group by group, by our planner and by an open solver (CP-SAT of Google OR-Tools) in the same run: which piece on which bar, least cost of steel.</summary>
internal static class OpenSolver
{
    private const int MostCells = 60_000; // pieces times bars: a larger model takes longer to write down than to give up on

    public static void Run(int cuts, int jobs, double seconds, bool isFixed)
    {
        double ours = 0;
        double theirs = 0;
        var groups = 0;
        var oursProven = 0;
        var theirsProven = 0;
        var ratios = new List<double>();
        for (var seed = 1; seed <= jobs; seed++)
        {
            var (pieces, rack) = ShopJobs.Make(cuts, seed, isFixed, CuttingAim.Cost);
            foreach (var group in pieces.GroupBy(p => p.Pipe))
            {
                var bars = rack.Bars.Where(b => b.Pipe == group.Key).ToList();
                var begun = OwnTime.Clock.GetTimestamp();
                var plan = CuttingPlanner.Plan([.. group], new Rack(bars, rack.Rules), TimeSpan.FromSeconds(seconds), OwnTime.Clock);
                ours += OwnTime.Clock.GetElapsedTime(begun).TotalSeconds;
                begun = OwnTime.Clock.GetTimestamp();
                var (cost, proven) = Solve([.. group], bars, rack.Rules, seconds);
                theirs += OwnTime.Clock.GetElapsedTime(begun).TotalSeconds;
                groups++;
                oursProven += plan.IsProven ? 1 : 0;
                theirsProven += proven ? 1 : 0;
                if (cost is { } c)
                    ratios.Add((double)(plan.Groups[0].Cost / c));
            }
        }

        Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"{jobs} jobs of {cuts} cuts, {(isFixed ? "fixed" : "random")} lengths, {groups} groups, {seconds} s each: cost ours / open solver {ratios.DefaultIfEmpty(double.NaN).Average():0.00000} over {ratios.Count} groups that it had a plan for (best {ratios.DefaultIfEmpty(double.NaN).Min():0.00000}, worst {ratios.DefaultIfEmpty(double.NaN).Max():0.00000}); proven {oursProven} / {theirsProven}; seconds of work {ours:0.0} / {theirs:0.0}"));
    }

    private static (decimal? Cost, bool Proven) Solve(List<Piece> pieces, List<StockBar> bars, CuttingRules rules, double seconds)
    {
        const int unit = 10; // lengths to a tenth of a millimetre, as the jobs have them
        const int cent = 10_000;
        long[] lengths = [.. pieces.Select(p => (long)Math.Round((p.Length + rules.Kerf) * unit))];
        var rows = bars.SelectMany(b => Enumerable.Repeat(
            (Room: (long)Math.Round((b.Length + rules.Kerf) * unit), Cost: (long)Math.Round(b.Cost!.Value * b.Length / 1000 * cent)),
            b.Quantity ?? Math.Min(pieces.Count, 1 + (int)Math.Ceiling(1.3 * lengths.Sum() / ((b.Length + rules.Kerf) * unit))))).ToArray();
        if (MostCells < rows.Length * pieces.Count)
            return (null, false);
        var model = new CpModel();
        var used = rows.Select((_, b) => model.NewBoolVar($"bar {b}")).ToArray();
        var inside = pieces.Select((_, p) => rows.Select((_, b) => model.NewBoolVar($"{p} in {b}")).ToArray()).ToArray();
        foreach (var choices in inside)
            model.AddExactlyOne(choices);
        for (var b = 0; b < rows.Length; b++)
        {
            model.Add(LinearExpr.WeightedSum(inside.Select(x => x[b]), lengths) <= rows[b].Room * used[b]);
            if (b > 0 && rows[b] == rows[b - 1])
                model.AddImplication(used[b], used[b - 1]);
        }

        model.Minimize(LinearExpr.WeightedSum(used, rows.Select(r => r.Cost)));
        var solver = new CpSolver { StringParameters = string.Create(CultureInfo.InvariantCulture, $"num_workers:1,random_seed:1,max_time_in_seconds:{seconds}") };
        var status = solver.Solve(model);
        return status is CpSolverStatus.Optimal or CpSolverStatus.Feasible ? ((decimal)Math.Round(solver.ObjectiveValue) / cent, status == CpSolverStatus.Optimal) : (null, false);
    }
}
