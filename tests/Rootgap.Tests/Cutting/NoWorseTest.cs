using System.Globalization;
using Rootgap.Cutting;

namespace Rootgap.Tests.Cutting;

/// <summary>No plan is worse than what one does by hand: first-fit or best-fit decreasing (Johnson 1973), with whatever length of bar preferred.</summary>
public class NoWorseTest
{
    private static readonly PipeKind Pipe = PipeKind.Of("6", "40", "A106-B");

    private static readonly Gen<(Piece[] Pieces, StockBar[] Bars, CuttingAim First, bool Stopped)> Jobs =
        from count in Gen.Int[1, 250]
        from isFixed in Gen.Bool
        from lengths in Gen.Int[150, 5900].Array[count]
        from kinds in Gen.Int[150, 5900].Array[12]
        from picks in Gen.Int[0, 11].Array[count]
        from remnants in Gen.Int[300, 5000].Array[0, 12]
        from costs in Gen.Int[900, 1100].Array[3]
        from first in Gen.Int[0, 2].Select(i => ((CuttingAim[])[CuttingAim.Rack, CuttingAim.Cost, CuttingAim.Bars])[i])
        from stopped in Gen.Bool
        select (
            Enumerable.Range(0, count).Select(i => new Piece(string.Create(CultureInfo.InvariantCulture, $"P{i}"), "D", Pipe, isFixed ? kinds[picks[i]] : lengths[i])).ToArray(),
            (StockBar[])
            [
                .. remnants.Select((l, i) => new StockBar(string.Create(CultureInfo.InvariantCulture, $"O{i}"), Pipe, l, 1, StockSource.Remnant) { Cost = 5 }),
                new("R", Pipe, 6000, 2, StockSource.OnHand) { Cost = 9 },
                .. ((int[])[6000, 7300, 12000]).Select((l, i) => new StockBar(string.Create(CultureInfo.InvariantCulture, $"N{i}"), Pipe, l, null, StockSource.Buy) { Cost = costs[i] / 100.0 }),
            ],
            first, stopped);

    [Trait("pace", "slow")]
    [Fact]
    public void A_plan_is_never_worse_than_first_fit_or_best_fit_however_short_the_time() => Jobs.Sample(
        job =>
        {
            var rules = new CuttingRules { Order = [job.First, .. Enum.GetValues<CuttingAim>().Where(a => a != job.First)] };
            using var stop = new CancellationTokenSource();
            var clock = new Steps(job.Stopped ? 0 : 3000);
            var plan = CuttingPlanner.Plan(job.Pieces, new Rack(job.Bars, rules), TimeSpan.FromSeconds(1), clock, stop: stop.Token);
            PlanChecker.Check(plan, job.Pieces, new Rack(job.Bars, rules));
            var value = plan.Groups[0].Goals[0].Value;
            foreach (var wanted in job.Bars.Where(b => b.Source == StockSource.Buy))
            {
                foreach (var isBest in (bool[])[false, true])
                {
                    foreach (var (isRackFirst, sign) in ((bool, int)[])[(false, 1), (true, 1), (false, -1), (true, -1)])
                    {
                        StockBar[] turn = [.. job.Bars.OrderBy(b => b.Source switch { StockSource.Remnant => 0, StockSource.OnHand => 1, _ => 2 }).ThenBy(b => b == wanted ? 0 : 1).ThenBy(b => sign * b.Length)];
                        if (!isRackFirst)
                            turn = [wanted, .. turn.Where(b => b != wanted)];
                        Assert.True(value <= ByHand(job.Pieces, turn, job.First, isBest), string.Create(CultureInfo.InvariantCulture, $"{job.First} first: {value}, by hand {ByHand(job.Pieces, turn, job.First, isBest)}"));
                    }
                }
            }
        },
        iter: Cases.Of(25), threads: 1);

    // A clock that goes on by a step whenever it is looked at: the search is cut short at the same place on every machine.
    private sealed class Steps(long most) : TimeProvider
    {
        private long looked;

        public override long TimestampFrequency => Math.Max(1, most);

        public override long GetTimestamp() => most == 0 ? looked += 1000 : looked++;
    }

    private static decimal ByHand(Piece[] pieces, StockBar[] turn, CuttingAim first, bool isBest)
    {
        var left = turn.ToDictionary(b => b.Id, b => b.Quantity ?? int.MaxValue, StringComparer.Ordinal);
        var open = new List<(StockBar Bar, double Room)>();
        foreach (var piece in pieces.OrderByDescending(p => p.Length))
        {
            var fitting = open.Index().Where(o => piece.Length + 3 <= o.Item.Room).ToList();
            var at = fitting.Count == 0 ? -1 : isBest ? fitting.MinBy(o => o.Item.Room).Index : fitting[0].Index;
            if (at < 0)
            {
                var bar = turn.First(b => 0 < left[b.Id] && piece.Length <= b.Length);
                left[bar.Id]--;
                at = open.Count;
                open.Add((bar, bar.Length + 3));
            }

            open[at] = (open[at].Bar, open[at].Room - piece.Length - 3);
        }

        return first switch
        {
            CuttingAim.Bars => open.Count,
            CuttingAim.Rack => open.Where(o => o.Bar.Source == StockSource.Buy).Sum(o => (decimal)o.Bar.Cost! * (decimal)o.Bar.Length / 1000),
            _ => open.Sum(o => (decimal)o.Bar.Cost! * (decimal)o.Bar.Length / 1000),
        };
    }
}
