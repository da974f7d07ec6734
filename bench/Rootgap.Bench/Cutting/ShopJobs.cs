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

    /// <summary>Several lengths of bar in limited number, about as much steel as is needed: one group a task.</summary>
    public static void RunLimited(int tasks, double seconds)
    {
        var settled = 0;
        double worst = 0;
        var pipe = PipeKind.Of("6", "40", "A106-B");
        for (var seed = 1; seed <= tasks; seed++)
        {
            var random = new Random(seed);
            var kinds = random.Next(5, 41);
            var most = random.Next(1, 21);
            var pieces = new List<Piece>();
            for (var k = 0; k < kinds; k++)
            {
                var length = random.Next(200, 4000);
                for (var n = random.Next(1, most + 1); n > 0; n--)
                    pieces.Add(new Piece(string.Create(CultureInfo.InvariantCulture, $"{k}-{n}"), "T", pipe, length));
            }

            var need = pieces.Sum(p => p.Length + 3) * (0.98 + (0.25 * random.NextDouble()));
            var types = random.Next(2, 9);
            var bars = new List<StockBar>();
            for (var t = 0; t < types; t++)
            {
                var length = random.Next(4000, 12001);
                bars.Add(new StockBar($"T{t}", pipe, length, (int)Math.Max(1, need / types / length) + (t == 0 ? 1 : 0), StockSource.OnHand));
            }

            var clock = Stopwatch.StartNew();
            var plan = CuttingPlanner.Plan(pieces, new Rack(bars, new CuttingRules()), TimeSpan.FromSeconds(seconds), TimeProvider.System);
            var t1 = clock.Elapsed.TotalSeconds;
            worst = Math.Max(worst, t1);
            var impossible = plan.Unplaced.Count > 0 && plan.Unplaced[0].Why.StartsWith("proven", StringComparison.Ordinal);
            var good = impossible || (plan.Unplaced.Count == 0 && plan.IsProven);
            settled += good ? 1 : 0;
            if (!good)
                Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  task {seed}: {kinds} kinds, {pieces.Count} pieces, {types} lengths: {plan.Unplaced.Count} unplaced, {plan.Groups[0].NewBars} bars, bound {plan.Groups[0].LeastBars}, used {plan.Groups[0].Used:0} bound {plan.Groups[0].LeastSteel:0}, {t1:0.0} s"));
        }

        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{tasks} tasks of several lengths in limited number: {settled} settled, slowest {worst:0.0} s"));
    }
}
