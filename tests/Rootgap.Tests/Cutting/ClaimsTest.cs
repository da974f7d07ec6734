using System.Globalization;
using Rootgap.Cutting;

namespace Rootgap.Tests.Cutting;

/// <summary>
/// Every claim of a plan against trying everything, for small jobs: written from what docs/cutting.md says the goals are, with nothing of the planner in it.
/// Lengths and costs are decimals, so nothing is rounded on this side. ROOTGAP_CASES=20000 tries so many.
/// </summary>
public class ClaimsTest
{
    private sealed record Job(Piece[] Pieces, StockBar[] Bars, CuttingRules Rules);

    private const decimal Hair = 0.000002m; // what is left is added up in doubles by the planner

    private static readonly PipeKind Pipe = PipeKind.Of("6", "40", "A106-B");

    private static readonly Gen<Job> Jobs =
        from lengths in Gen.Int[1, 24].Array[1, 6]
        from stock in Gen.Int[6, 40].Array[1, 4]
        from sources in Gen.Int[0, 2].Array[4]
        from quantities in Gen.Int[1, 3].Array[4]
        from costs in Gen.Int[0, 9].Array[4]
        from kerf in Gen.Int[0, 2]
        from inches in Gen.Bool
        from value in Gen.Int[0, 4]
        from shortest in Gen.Int[0, 12]
        from priced in Gen.Bool
        from faced in Gen.Int[0, 2].Array[6]
        from order in Gen.Int[0, 5].Array[0, 3]
        from crooked in Gen.Bool
        select Make(lengths, stock, sources, quantities, costs, kerf, inches ? 25.4 / 8 : 10, value / 4.0, shortest, priced, faced, order, crooked);

    private static Job Make(int[] lengths, int[] stock, int[] sources, int[] quantities, int[] costs, int kerf, double unit, double value, int shortest, bool priced, int[] faced, int[] order, bool crooked)
    {
        CuttingAim[] aims = [.. order.Select(a => (CuttingAim)a).Distinct()];
        return new(
            [.. lengths.Select((l, i) => new Piece(string.Create(CultureInfo.InvariantCulture, $"P{i}"), "D", Pipe, l * unit) { FacedEnds = faced[i] })],
            [.. stock.Select((l, k) => new StockBar(string.Create(CultureInfo.InvariantCulture, $"S{k}"), Pipe, l * unit, sources[k] == 2 ? null : quantities[k], sources[k] switch { 0 => StockSource.OnHand, 1 => StockSource.Remnant, _ => StockSource.Buy })
            {
                Cost = priced && costs[k] > 0 ? costs[k] + 0.25 : null,
            })],
            new CuttingRules
            {
                Kerf = kerf * unit, FacingLoss = unit / 2, EndTrim = unit, ShortestRemnant = shortest * unit, RemnantValue = value, ShortPiecesFirst = crooked,
                Order = [.. aims, .. Enum.GetValues<CuttingAim>().Except(aims)],
            });
    }

    [Fact]
    public void No_claim_of_a_plan_is_wrong() => Jobs.Sample(
        job =>
        {
            var plan = CuttingPlanner.Plan(job.Pieces, new Rack(job.Bars, job.Rules), TimeSpan.FromMinutes(1), stop: TestContext.Current.CancellationToken);
            PlanChecker.Check(plan, job.Pieces, new Rack(job.Bars, job.Rules));
            var all = Everything(job);
            if (all.Count == 0)
            {
                Assert.NotEmpty(plan.Unplaced);
                return;
            }

            Assert.Empty(plan.Unplaced);
            var group = Assert.Single(plan.Groups);
            foreach (var cuts in group.Bars.Select(b => b.Pieces.Select(p => p.SawLength).ToList()))
                Assert.True(cuts.Zip(cuts.Skip(1)).All(c => job.Rules.ShortPiecesFirst ? c.First <= c.Second + 1e-9 : c.Second <= c.First + 1e-9), "short ends first where the shop says so, else long ones");
            var goals = group.Goals;
            Assert.Equal(7, goals.Count);
            Assert.Equal(job.Rules.Order, goals.Select(g => g.Aim).Distinct());

            // What the plan is said to come to is what it comes to.
            var values = Values(job, [.. group.Bars.Select(b => (b.Stock, b.Pieces.Select(p => p.Piece).ToList()))]);
            for (var g = 0; g < goals.Count; g++)
                Assert.True(Math.Abs(values[g] - goals[g].Value) <= Hair, $"{goals[g].Says}: {goals[g].Value}, and it comes to {values[g]}");

            // No plan that is as good in the goals before comes to less than the bound.
            var left = all.ToList();
            for (var g = 0; g < goals.Count; g++)
            {
                var least = left.Min(v => v[g]);
                Assert.True(goals[g].Bound <= least + Hair, $"{goals[g].Says}: bound {goals[g].Bound}, and {least} is possible");
                if (goals[g].Aim is CuttingAim.Remnants or CuttingAim.SetUps)
                    continue; // these are not proven, and do not narrow what those after them are compared with
                if (group.IsProven)
                    Assert.True(values[g] <= least + Hair, $"{goals[g].Says}: said to be best at {values[g]}, and {least} is possible");
                left.RemoveAll(v => v[g] > values[g] + Hair);
            }

            if (group.IsProven)
                return;
            // A job of this size is settled, unless set-ups stand before what counts by bars and some were saved: then it is better in the order of the rules than without them.
            var plain = CuttingPlanner.Plan(job.Pieces, new Rack(job.Bars, job.Rules with { Order = [.. job.Rules.Order.Where(a => a != CuttingAim.SetUps), CuttingAim.SetUps] }), TimeSpan.FromMinutes(1), stop: TestContext.Current.CancellationToken).Groups[0];
            Assert.True(plain.IsProven, "a job of this size is settled");
            var without = Values(job, [.. plain.Bars.Select(b => (b.Stock, b.Pieces.Select(p => p.Piece).ToList()))]);
            var first = Enumerable.Range(0, goals.Count).First(g => goals[g].Aim != CuttingAim.Remnants && Math.Abs(values[g] - without[g]) > Hair);
            Assert.True(goals[first].Aim == CuttingAim.SetUps && values[first] < without[first], $"{goals[first].Says}: {values[first]}, and {without[first]} is possible");
        },
        iter: Cases.Of(400), threads: 1);

    // The goals of every plan there is, each once.
    private static HashSet<decimal[]> Everything(Job job)
    {
        var found = new HashSet<decimal[]>(new Same());
        var bars = new List<(StockBar Stock, List<Piece> Pieces)>();
        var taken = job.Bars.ToDictionary(b => b.Id, _ => 0, StringComparer.Ordinal);
        Place(0);
        return found;

        void Place(int p)
        {
            if (p == job.Pieces.Length)
            {
                found.Add(Values(job, bars));
                return;
            }

            foreach (var (_, pieces) in bars.ToArray())
            {
                pieces.Add(job.Pieces[p]);
                if (Left(job, bars.Find(b => ReferenceEquals(b.Pieces, pieces))) is not null)
                    Place(p + 1);
                pieces.RemoveAt(pieces.Count - 1);
            }

            foreach (var stock in job.Bars.Where(b => b.Quantity is null || taken[b.Id] < b.Quantity))
            {
                bars.Add((stock, [job.Pieces[p]]));
                taken[stock.Id]++;
                if (Left(job, bars[^1]) is not null)
                    Place(p + 1);
                taken[stock.Id]--;
                bars.RemoveAt(bars.Count - 1);
            }
        }
    }

    // What is left of a bar after its pieces and a saw cut after each, the last one only as far as there is pipe; null where they do not fit.
    private static decimal? Left(Job job, (StockBar Stock, List<Piece> Pieces) bar)
    {
        var rules = job.Rules;
        var left = (decimal)bar.Stock.Length - (bar.Stock.Source == StockSource.Remnant ? 0 : 2 * (decimal)rules.EndTrim);
        left -= bar.Pieces.Sum(p => (decimal)p.Length + (p.FacedEnds * (decimal)rules.FacingLoss)) + ((bar.Pieces.Count - 1) * (decimal)rules.Kerf);
        return left < 0 ? null : Math.Max(0, left - (decimal)rules.Kerf);
    }

    private static decimal[] Values(Job job, List<(StockBar Stock, List<Piece> Pieces)> bars)
    {
        var isMoney = job.Bars.Any(b => b.Cost is not null);
        var dearest = (decimal)(job.Bars.Max(b => b.Cost) ?? 1);
        decimal Cost(StockBar b) => (b.Cost is { } c ? (decimal)c : dearest) * (decimal)b.Length / (isMoney ? 1000 : 1);
        decimal Sum(params StockSource[] from) => bars.Where(b => from.Contains(b.Stock.Source)).Sum(b => Cost(b.Stock));
        var full = job.Bars.Where(b => b.Source != StockSource.Remnant).ToList();
        var rate = (full.Count > 0 ? full : [.. job.Bars]).Min(b => Cost(b) / (decimal)b.Length) * (decimal)job.Rules.RemnantValue;
        var scrap = 0m;
        foreach (var bar in bars)
        {
            var left = Left(job, bar)!.Value;
            if (left < (decimal)job.Rules.ShortestRemnant)
                scrap += left;
        }

        var plans = bars.Select(b => string.Create(CultureInfo.InvariantCulture, $"{b.Stock.Length}:{string.Join('+', b.Pieces.Select(p => (decimal)p.Length + (p.FacedEnds * (decimal)job.Rules.FacingLoss)).Order())}")).Distinct(StringComparer.Ordinal).Count();
        var values = new List<decimal>();
        foreach (var aim in job.Rules.Order)
        {
            values.AddRange(aim switch
            {
                CuttingAim.Rack => [Sum(StockSource.Buy), Sum(StockSource.OnHand)],
                CuttingAim.NetCost => [Sum(StockSource.Buy, StockSource.OnHand) + (rate * (job.Pieces.Sum(p => (decimal)p.Length + (p.FacedEnds * (decimal)job.Rules.FacingLoss)) - bars.Where(b => b.Stock.Source != StockSource.Remnant).Sum(b => (decimal)b.Stock.Length)))],
                CuttingAim.Remnants => [scrap],
                CuttingAim.Bars => [bars.Count],
                CuttingAim.SetUps => [plans],
                _ => (IEnumerable<decimal>)[Sum(StockSource.Buy, StockSource.OnHand, StockSource.Remnant)],
            });
        }

        return [.. values];
    }

    private sealed class Same : IEqualityComparer<decimal[]>
    {
        public bool Equals(decimal[]? x, decimal[]? y) => x!.AsSpan().SequenceEqual(y);

        public int GetHashCode(decimal[] obj)
        {
            var hash = new HashCode();
            foreach (var v in obj)
                hash.Add(v);
            return hash.ToHashCode();
        }
    }
}
