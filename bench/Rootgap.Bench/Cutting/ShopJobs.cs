using System.Globalization;
using Rootgap.Cutting;

namespace Rootgap.Bench.Cutting;

/// <summary>
/// Made-up shop jobs of a given number of cuts: sizes and schedules as a shop meets them; lengths to a tenth of a millimetre, or from a list of some
/// thirty; three lengths to buy at prices of their own, some bars and remnants on hand. Seeded, so that every run is the same.
/// </summary>
internal static class ShopJobs
{
    public static (List<Piece> Pieces, Rack Rack) Make(int cuts, int seed, bool isFixed, CuttingAim first)
    {
        var random = new Random(seed);
        string[] sizes = ["2", "3", "4", "6", "8", "10", "12", "1-1/2"];
        var kinds = Math.Clamp(cuts / 7, 1, 24);
        var pipes = Enumerable.Range(0, kinds).Select(k => PipeKind.Of(sizes[k % sizes.Length], k / sizes.Length % 2 == 0 ? "40" : "80", k < 16 ? "A106-B" : "A312-TP304L")).ToArray();
        double Length() => random.NextDouble() < 0.15 ? 3000 + (random.NextDouble() * 2900) : 120 + (Math.Pow(random.NextDouble(), 1.5) * 2900);
        var list = Enumerable.Range(0, 30).Select(_ => Math.Round(Length())).ToArray();
        var pieces = new List<Piece>();
        for (var i = 0; i < cuts; i++)
        {
            var pipe = pipes[(int)(random.NextDouble() * random.NextDouble() * kinds)];
            pieces.Add(new Piece($"{i / 6 + 1}-{(char)('A' + (i % 6))}", $"ISO-{i / 12 + 1}", pipe, isFixed ? list[random.Next(list.Length)] : Math.Round(Length(), 1)));
        }

        var bars = new List<StockBar>();
        foreach (var (k, pipe) in pipes.Index())
        {
            var metre = Math.Round(4 + (60 * random.NextDouble()), 2);
            bars.Add(new StockBar($"buy6-{k}", pipe, 6000, null, StockSource.Buy) { Cost = metre });
            bars.Add(new StockBar($"buy7-{k}", pipe, 7300, null, StockSource.Buy) { Cost = Math.Round(metre * 0.99, 2) });
            bars.Add(new StockBar($"buy12-{k}", pipe, 12000, null, StockSource.Buy) { Cost = Math.Round(metre * 0.97, 2) });
            bars.Add(new StockBar($"hand6-{k}", pipe, 6000, random.Next(4), StockSource.OnHand) { Cost = Math.Round(metre * 0.9, 2) });
            for (var r = 0; r < random.Next(4); r++)
                bars.Add(new StockBar($"rem-{k}-{r}", pipe, random.Next(400, 4500), 1, StockSource.Remnant) { Cost = Math.Round(metre * 0.5, 2) });
        }

        return (pieces, new Rack(bars, new CuttingRules { Order = [first, .. Enum.GetValues<CuttingAim>().Where(a => a != first)] }));
    }

    public static void Run(int cuts, int jobs, double seconds, bool isFixed, CuttingAim first)
    {
        var groups = 0;
        var proven = 0;
        var worse = 0;
        var gaps = new List<double>();
        double worst = 0;
        for (var seed = 1; seed <= jobs; seed++)
        {
            var (pieces, rack) = Make(cuts, seed, isFixed, first);
            var begun = OwnTime.Clock.GetTimestamp();
            var plan = CuttingPlanner.Plan(pieces, rack, TimeSpan.FromSeconds(seconds), OwnTime.Clock);
            worst = Math.Max(worst, OwnTime.Clock.GetElapsedTime(begun).TotalSeconds);
            groups += plan.Groups.Count;
            proven += plan.Groups.Count(g => g.IsProven);
            decimal Cost(CutGroup g) => g.Goals[0].Value;
            decimal Least(CutGroup g) => g.Goals[0].Bound;
            gaps.Add((double)(100 * plan.Groups.Sum(g => Cost(g) - Least(g)) / Math.Max(1, plan.Groups.Sum(Least))));
            foreach (var g in plan.Groups)
            {
                var simple = FirstFit([.. pieces.Where(p => p.Pipe == g.Pipe)], [.. rack.Bars.Where(b => b.Pipe == g.Pipe)], rack.Rules, first);
                if (simple < (double)Cost(g) - 1e-6)
                {
                    worse++;
                    Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  seed {seed} {g.Pipe}: first-fit {simple:0.00}, plan {Cost(g):0.00}"));
                }

                if (!g.IsProven && jobs <= 5)
                    Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  {g.Pipe}: {g.Bars.Sum(b => b.Pieces.Count)} pieces, {g.NewBars} bars, {Cost(g):0.00} bound {Least(g):0.00}, {100 * (Cost(g) - Least(g)) / Math.Max(1, Least(g)):0.000} %"));
            }
        }

        Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"{jobs} jobs of {cuts} cuts, {(isFixed ? "fixed" : "random")} lengths, {first} first: {proven} of {groups} groups proven, mean gap in the first goal {gaps.Average():0.0000} %, worst {gaps.Max():0.0000} %, worse than first-fit {worse}, slowest {worst:0.0} s"));
    }

    // First-fit decreasing with each length of bar preferred in turn, as one would do it by hand: its cost.
    private static double FirstFit(List<Piece> pieces, List<StockBar> bars, CuttingRules rules, CuttingAim first)
    {
        var best = double.MaxValue;
        foreach (var wanted in bars.Where(b => b.Quantity is null))
        {
            StockBar[] turn = [.. bars.OrderBy(b => b.Source switch { StockSource.Remnant => 0, StockSource.OnHand => 1, _ => 2 }).ThenBy(b => b == wanted ? 0 : 1)];
            foreach (var rackFirst in (bool[])[true, false])
            {
                if (!rackFirst)
                    turn = [wanted, .. turn.Where(b => b != wanted)];
                var left = turn.ToDictionary(b => b.Id, b => b.Quantity ?? int.MaxValue);
                var open = new List<(StockBar Bar, double Room)>();
                foreach (var piece in pieces.OrderByDescending(p => p.Length))
                {
                    var at = open.FindIndex(o => piece.Length + rules.Kerf <= o.Room + 1e-6);
                    if (at < 0)
                    {
                        var bar = Array.Find(turn, b => 0 < left[b.Id] && piece.Length <= b.Length);
                        if (bar is null)
                            goto next;
                        left[bar.Id]--;
                        at = open.Count;
                        open.Add((bar, bar.Length + rules.Kerf));
                    }

                    open[at] = (open[at].Bar, open[at].Room - piece.Length - rules.Kerf);
                }

                best = Math.Min(best, open.Sum(o => first == CuttingAim.Rack && o.Bar.Source != StockSource.Buy ? 0 : o.Bar.Cost!.Value * o.Bar.Length / 1000));
            next:;
            }
        }

        return best;
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

            var begun = OwnTime.Clock.GetTimestamp();
            var plan = CuttingPlanner.Plan(pieces, new Rack(bars, new CuttingRules()), TimeSpan.FromSeconds(seconds), OwnTime.Clock);
            var t1 = OwnTime.Clock.GetElapsedTime(begun).TotalSeconds;
            worst = Math.Max(worst, t1);
            var impossible = plan.Unplaced.Count > 0 && plan.Unplaced[0].Why.StartsWith("proven", StringComparison.Ordinal);
            var good = impossible || (plan.Unplaced.Count == 0 && plan.IsProven);
            settled += good ? 1 : 0;
            if (!good)
                Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  task {seed}: {kinds} kinds, {pieces.Count} pieces, {types} lengths: {plan.Unplaced.Count} unplaced, {plan.Groups[0].NewBars} bars, bound {plan.Groups[0].LeastBars}, {plan.Groups[0].Verdict}, {t1:0.0} s"));
        }

        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{tasks} tasks of several lengths in limited number: {settled} settled, slowest {worst:0.0} s"));
    }
}
