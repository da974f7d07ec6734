using System.Diagnostics;
using System.Globalization;
using Rootgap.Cutting;

namespace Rootgap.Bench.Cutting;

/// <summary>
/// Made-up shop jobs of a given number of cuts: sizes and schedules as a shop meets them, lengths to a tenth of a millimetre, two lengths
/// to buy, some bars and remnants on hand. Seeded, so that every run is the same.
/// </summary>
internal static class ShopJobs
{
    public static (List<Piece> Pieces, Rack Rack) Make(int cuts, int seed)
    {
        var random = new Random(seed);
        string[] sizes = ["2", "3", "4", "6", "8", "10", "12", "1-1/2"];
        var kinds = Math.Clamp(cuts / 7, 1, 24);
        var pipes = Enumerable.Range(0, kinds).Select(k => PipeKind.Of(sizes[k % sizes.Length], k / sizes.Length % 2 == 0 ? "40" : "80", k < 16 ? "A106-B" : "A312-TP304L")).ToArray();
        var pieces = new List<Piece>();
        for (var i = 0; i < cuts; i++)
        {
            var pipe = pipes[(int)(random.NextDouble() * random.NextDouble() * kinds)];
            var length = random.NextDouble() < 0.15 ? 3000 + (random.NextDouble() * 2900) : 120 + (Math.Pow(random.NextDouble(), 1.5) * 2900);
            pieces.Add(new Piece($"{i / 6 + 1}-{(char)('A' + (i % 6))}", $"ISO-{i / 12 + 1}", pipe, Math.Round(length, 1)));
        }

        var bars = new List<StockBar>();
        foreach (var (k, pipe) in pipes.Index())
        {
            bars.Add(new StockBar($"buy6-{k}", pipe, 6000, null, StockSource.Buy));
            bars.Add(new StockBar($"buy12-{k}", pipe, 12000, null, StockSource.Buy));
            bars.Add(new StockBar($"hand6-{k}", pipe, 6000, random.Next(4), StockSource.OnHand));
            for (var r = 0; r < random.Next(4); r++)
                bars.Add(new StockBar($"rem-{k}-{r}", pipe, random.Next(400, 4500), 1, StockSource.Remnant));
        }

        return (pieces, new Rack(bars, new CuttingRules { Order = Environment.GetEnvironmentVariable("COST_FIRST") is null ? new CuttingRules().Order : [CuttingAim.Cost, CuttingAim.Bars, CuttingAim.Remnants, CuttingAim.SetUps] }));
    }

    public static void Run(int cuts, int jobs, double seconds)
    {
        var groups = 0;
        var proven = 0;
        double gap = 0;
        double barGap = 0;
        double worst = 0;
        for (var seed = 1; seed <= jobs; seed++)
        {
            var (pieces, rack) = Make(cuts, seed);
            var clock = Stopwatch.StartNew();
            var plan = CuttingPlanner.Plan(pieces, rack, TimeSpan.FromSeconds(seconds), TimeProvider.System);
            var t = clock.Elapsed.TotalSeconds;
            worst = Math.Max(worst, t);
            groups += plan.Groups.Count;
            proven += plan.Groups.Count(g => g.IsProven);
            var used = plan.Groups.Sum(g => g.Used);
            var least = plan.Groups.Sum(g => g.LeastSteel);
            gap += 100 * (used - least) / least / jobs;
            barGap += 100.0 * plan.Groups.Sum(g => g.NewBars - g.LeastBars) / plan.Groups.Sum(g => g.LeastBars) / jobs;
            if (jobs <= 5)
            {
                foreach (var g in plan.Groups.Where(g => !g.IsProven))
                    Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  {g.Pipe}: {g.Bars.Sum(b => b.Pieces.Count)} pieces, {g.NewBars} bars, bound {g.LeastBars}, used {g.Used:0} bound {g.LeastSteel:0}"));
            }
        }

        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{jobs} jobs of {cuts} cuts: {proven} of {groups} groups proven, mean gap by steel {gap:0.0000} %, by bars {barGap:0.0000} %, slowest {worst:0.000} s"));
    }
}
