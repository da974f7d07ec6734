using System.Text;
using System.Text.Json;
using Rootgap.Cutting;
using Rootgap.Findings;

namespace Rootgap.Tests.Cutting;

/// <summary>Going on from a plan that is cut in part. The arithmetic of each case stands beside it; what holds for all of them is told as a law over made-up weeks at the saw.</summary>
public class SawReportTest
{
    private static readonly PipeKind Pipe = PipeKind.Of("6", "40", "A106-B");

    private static readonly Piece[] Three = [new("A", "D", Pipe, 2000), new("B", "D", Pipe, 1500), new("C", "D", Pipe, 1000)];

    private static readonly Rack TwoBars = new([new StockBar("R", Pipe, 6000, 2, StockSource.OnHand)], new CuttingRules());

    private static CuttingPlan Plan(IReadOnlyList<Piece> pieces, Rack rack) => Written(CuttingPlanner.Plan(pieces, rack, TimeSpan.FromMinutes(1), stop: TestContext.Current.CancellationToken));

    // As it goes from hand to hand: written and read again.
    private static CuttingPlan Written(CuttingPlan plan)
    {
        using var stream = new MemoryStream();
        using (var json = new Utf8JsonWriter(stream))
            CuttingPlanJson.Write(json, plan, "test");
        return CuttingPlanJson.Read(Encoding.UTF8.GetString(stream.ToArray()));
    }

    private static SawLog Told(SawReport report, CuttingPlan plan, Rack rack)
    {
        var (log, findings) = report.On(plan, rack);
        Assert.DoesNotContain(findings, f => f.Severity == Severity.Stop);
        return log!;
    }

    private static string Refused(SawReport report, CuttingPlan plan, Rack rack)
    {
        var (log, findings) = report.On(plan, rack);
        Assert.Null(log);
        return Assert.Single(findings, f => f.Severity == Severity.Stop).Rule;
    }

    private static string Ids(IEnumerable<Piece> pieces) => string.Join(' ', pieces.Select(p => p.FullName));

    [Fact]
    public void A_spoiled_piece_is_cut_again_from_what_is_left()
    {
        // One bar of 6000: A 2000, B 1500, C 1000 in this order, 3 mm kerfs. A is good, B is spoiled at 2003 + 1500 = 3503:
        // 6000 - 3503 - 3 = 2494 is left, where C 1000 goes; B 1500 and C need 2503: one more bar.
        var log = Told(new() { Cut = ["A"], Spoiled = ["D B"] }, Plan(Three, TwoBars), TwoBars);
        var wanted = log.Wanted(Three, []);
        var rack = log.Left(TwoBars);
        Assert.Equal("D B D C", Ids(wanted));
        Assert.Collection(rack.Bars,
            b => Assert.Equal((2494.0, 1, StockSource.Begun), (b.Length, b.Left, b.Source)),
            b => Assert.Equal(("R", 1), (b.Id, b.Left)));
        var again = Plan(wanted, rack);
        PlanChecker.Check(again, wanted, rack);
        Assert.Equal("R#1 rest R#2", string.Join(' ', again.Groups[0].Bars.Select(b => b.Name).Order(StringComparer.Ordinal)));
        Assert.True(again.Groups[0].IsProven);
    }

    // The rest of a bar begins where its last cut ended and the blade went through: 3503 and 3 of R#1.
    [Fact]
    public void The_rest_of_a_bar_is_the_same_steel_farther_along()
    {
        var log = Told(new() { Cut = ["A"], Spoiled = ["D B"] }, Plan(Three, TwoBars), TwoBars);
        var again = CuttingPlanner.Plan(log.Wanted(Three, []), log.Left(TwoBars), TimeSpan.FromMinutes(1), stop: TestContext.Current.CancellationToken) with { Log = log };
        Assert.Equal([("R#1", 3506.0), ("R#2", 0.0)], again.Groups[0].Bars.Select(again.SteelOf).OrderBy(s => s.Bar, StringComparer.Ordinal));
    }

    [Fact]
    public void Nothing_cut_yet_means_the_same_plan_again()
    {
        var log = Told(new(), Plan(Three, TwoBars), TwoBars);
        Assert.Equal(Three, log.Wanted(Three, []));
        Assert.Equal(TwoBars.Bars, log.Left(TwoBars).Bars);
    }

    [Fact]
    public void A_mark_that_stands_on_pieces_of_several_drawings_is_asked_back_with_their_names()
    {
        Piece[] pieces = [new("2-A", "CHW-117", Pipe, 2000), new("2-A", "SEA-110", Pipe, 1500), new("2-B", "SEA-110", Pipe, 700)];
        var plan = Plan(pieces, TwoBars);
        var (log, findings) = new SawReport { Cut = ["2-A"] }.On(plan, TwoBars);
        Assert.Null(log);
        Assert.Contains("\"CHW-117 2-A\" and on \"SEA-110 2-A\"", Assert.Single(findings).Message, StringComparison.Ordinal);
        Assert.Equal("SEA-110 2-A SEA-110 2-B", Ids(Told(new() { Cut = ["chw-117:2-a"] }, plan, TwoBars).Wanted(pieces, [])));
        Assert.Equal("CHW-117 2-A SEA-110 2-A", Ids(Told(new() { Cut = ["2-B"] }, plan, TwoBars).Wanted(pieces, [])));
    }

    [Fact]
    public void A_second_plan_after_a_first_remembers_what_was_cut_before_the_first()
    {
        var first = Plan(Three, TwoBars);
        var afterFirst = Told(new() { Cut = ["A"] }, first, TwoBars);
        var second = Plan(afterFirst.Wanted(Three, []), afterFirst.Left(TwoBars));

        // B 1500 comes from the rest of R#1: 2000 + 3 + 1500 = 3503 of the bar are gone then, and 6000 - 3503 - 3 are left.
        var afterSecond = Told(new() { Cut = ["B"] }, second, TwoBars);
        Assert.Equal("D C", Ids(afterSecond.Wanted(Three, [])));
        Assert.Equal(2494.0, afterSecond.Left(TwoBars).Bars[0].Length, 1e-6);
        Assert.Equal(("R#1", 3503.0), (afterSecond.Bars[0].Name, afterSecond.Bars[0].Gone));

        // A piece of the first plan turns out to be spoiled now: it is wanted again, and its steel does not come back.
        var late = Told(new() { Cut = ["B"], Spoiled = ["A"] }, second, TwoBars);
        Assert.Equal("D A D C", Ids(late.Wanted(Three, [])));
        Assert.Equal(2494.0, late.Left(TwoBars).Bars[0].Length, 1e-6);

        // Told twice is told once.
        Assert.Equal("D C", Ids(Told(new() { Cut = ["A", "B", "B"] }, second, TwoBars).Wanted(Three, [])));
    }

    [Fact]
    public void The_rest_of_a_remnant_has_no_mill_end_and_the_rest_of_a_full_length_has_one()
    {
        var rack = new Rack([new StockBar("O", Pipe, 3000, 1, StockSource.Remnant), new StockBar("R", Pipe, 6000, 1, StockSource.OnHand)], new CuttingRules { EndTrim = 10 });
        Piece[] pieces = [new("A", "D", Pipe, 1000), new("B", "D", Pipe, 1997), new("C", "D", Pipe, 3500), new("E", "D", Pipe, 2000)];
        var plan = Plan(pieces, rack);
        PlanChecker.Check(plan, pieces, rack);
        var firsts = plan.Groups[0].Bars.Select(b => b.Pieces[0].Piece.Id).ToList();
        var left = Told(new() { Cut = firsts }, plan, rack).Left(rack);
        Assert.Equal([0, 1], left.Bars.Where(b => b.Source == StockSource.Begun).Select(b => b.MillEnds).Order());
    }

    [Fact]
    public void A_bent_bar_is_not_cut_from_again()
    {
        var plan = Plan(Three, TwoBars);
        var log = Told(new() { Out = ["R#1"] }, plan, TwoBars);
        Assert.Equal("R#2", Assert.Single(Plan(log.Wanted(Three, []), log.Left(TwoBars)).Groups[0].Bars).Name);
        // Bent after A was cut: A stays, the rest goes.
        var later = Told(new() { Cut = ["A"], Out = ["R#1"] }, plan, TwoBars);
        Assert.Equal("D B D C", Ids(later.Wanted(Three, [])));
        Assert.Equal("R#2", Assert.Single(Plan(later.Wanted(Three, []), later.Left(TwoBars)).Groups[0].Bars).Name);
        Assert.Equal("unknown-bar", Refused(new() { Out = ["R#3"] }, plan, TwoBars));
    }

    [Fact]
    public void Where_another_bar_was_taken_that_bar_is_begun_and_the_planned_one_is_whole()
    {
        var rack = TwoBars with { Bars = [.. TwoBars.Bars, new StockBar("S", Pipe, 7000, 1, StockSource.OnHand), new StockBar("T", PipeKind.Of("6", "80", "A106-B"), 7000, 1, StockSource.OnHand)] };
        var plan = Plan(Three, rack);
        var planned = Assert.Single(plan.Groups[0].Bars).Name;
        Assert.Equal("R#1", planned);
        var log = Told(new() { Cut = ["A"], Instead = [("R#1", "S")] }, plan, rack);
        Assert.Equal(("S rest", 7000.0 - 2000 - 3), (log.Left(rack).Bars[0].Id, log.Left(rack).Bars[0].Length));
        Assert.Equal(2, log.Left(rack).Row("R")!.Left);
        Assert.Equal("wrong-pipe", Refused(new() { Cut = ["A"], Instead = [("R#1", "T")] }, plan, rack));
        Assert.Equal("unknown-bar", Refused(new() { Cut = ["A"], Instead = [("R#1", "U")] }, plan, rack));
        Assert.Equal("unknown-bar", Refused(new() { Cut = ["A"], Instead = [("Q", "S")] }, plan, rack));
    }

    [Fact]
    public void A_heat_that_turns_out_otherwise_is_planned_with()
    {
        var rack = new Rack([new StockBar("R", Pipe, 6000, 2, StockSource.OnHand) { Heat = "H1" }, new StockBar("N", Pipe, 6000, null, StockSource.Buy)], new CuttingRules());
        Piece[] pieces = [new("A", "D", Pipe, 2000) { Heat = "H1" }, new("B", "D", Pipe, 1500)];
        var log = Told(new() { Heats = [("R#1", "H7")] }, Plan(pieces, rack), rack);
        var again = Plan(pieces, log.Left(rack));
        Assert.Equal("R#2", Assert.Single(again.Groups[0].Bars, b => b.Pieces.Any(p => p.Piece.Id == "A")).Name);

        // A bar that was bought and delivered: it is on the rack now, with its heat, and so is what is left of it.
        Piece[] more = [new("C", "D", PipeKind.Of("4", "40", "A106-B"), 2000)];
        var shop = new Rack([new StockBar("N", more[0].Pipe, 6000, null, StockSource.Buy)], new CuttingRules());
        var delivered = Told(new() { Heats = [("N#1", "K55")] }, Plan(more, shop), shop).Left(shop);
        Assert.Equal(("N#1", "K55", StockSource.OnHand), (delivered.Bars[0].Id, delivered.Bars[0].Heat, delivered.Bars[0].Source));
        var plan = CuttingPlanner.Plan(more, delivered, TimeSpan.FromMinutes(1), stop: TestContext.Current.CancellationToken);
        Assert.Equal("K55", Assert.Single(plan.RackAfter, b => b.Source == StockSource.Remnant).Heat);
        Assert.Empty(plan.Purchases);
    }

    [Fact]
    public void A_piece_that_was_cut_to_another_length_than_the_drawing_now_wants_is_wanted_and_told()
    {
        var log = Told(new() { Cut = ["A"] }, Plan(Three, TwoBars), TwoBars);
        var findings = new List<Finding>();
        Assert.Equal("D A D B D C", Ids(log.Wanted([Three[0] with { Length = 2010 }, Three[1], Three[2]], findings)));
        Assert.Equal("cut-to-another-length", Assert.Single(findings).Rule);
    }

    [Fact]
    public void Cuts_out_of_order_leave_nothing_unsaid()
    {
        var (log, findings) = new SawReport { Cut = ["B"] }.On(Plan(Three, TwoBars), TwoBars);
        Assert.Equal("cut-out-of-order", Assert.Single(findings).Rule);
        Assert.Equal("D A D C", Ids(log!.Wanted(Three, [])));
    }

    [Fact]
    public void A_mark_that_the_plan_does_not_know_is_named()
    {
        Assert.Equal("unknown-piece", Refused(new() { Cut = ["Z"] }, Plan(Three, TwoBars), TwoBars));
        Assert.Throws<FormatException>(() => new SawReport().On(Plan(Three, TwoBars), new Rack([], new())));
    }

    private static readonly Gen<(Piece[] Pieces, Rack Rack, int Chance)> Weeks =
        from lengths in Gen.Int[200, 3000].Array[2, 14]
        from stock in Gen.Int[2500, 6500].Array[0, 4]
        from quantities in Gen.Int[1, 3].Array[4]
        from sources in Gen.Bool.Array[4]
        from kerf in Gen.Int[0, 4]
        from trim in Gen.Bool.Select(b => b ? 8.0 : 0)
        from chance in Gen.Int[0, 1_000_000]
        select (
            lengths.Select((l, i) => new Piece(string.Create(null, $"{i / 2}"), $"D{i % 2}", Pipe, l + (i / 10.0)) { FacedEnds = i % 3 }).ToArray(),
            new Rack(
                [.. stock.Select((l, i) => new StockBar($"R{i}", Pipe, l, quantities[i], sources[i] ? StockSource.Remnant : StockSource.OnHand)), new StockBar("N", Pipe, 6000, null, StockSource.Buy)],
                new CuttingRules { Kerf = kerf, EndTrim = trim, FacingLoss = 1.5 }),
            chance);

    [Fact]
    public void Whatever_happens_at_the_saw_every_piece_is_cut_good_once_and_no_bar_gives_more_than_it_has() => Weeks.Sample(
        week =>
        {
            var random = new Random(week.Chance);
            var (pieces, first, _) = week;
            var left = new Dictionary<string, double>(StringComparer.Ordinal); // what is left of each bar that was touched, saw's width taken off
            var good = new List<(string Name, double Length)>();
            var gone = new HashSet<string>(StringComparer.Ordinal);
            var rack = first;
            List<Piece> wanted = [.. pieces];
            for (var day = 0; wanted.Count > 0; day++)
            {
                Assert.True(day < 60, "the work comes to an end");
                var plan = Plan(wanted, rack);
                Assert.Empty(plan.Unplaced);
                PlanChecker.Check(plan, wanted, rack);
                var cut = new List<string>();
                var spoiled = new List<string>();
                var bent = new List<string>();
                var late = good.Count > 0 && random.Next(6) == 0 ? good[random.Next(good.Count)] : default;
                foreach (var bar in plan.Groups.SelectMany(g => g.Bars))
                {
                    var name = bar.Name.Replace(" rest", "", StringComparison.Ordinal);
                    Assert.DoesNotContain(name, gone);
                    var whole = bar.Stock.Source == StockSource.Begun ? left[name] : bar.Stock.Length;
                    Assert.True(bar.Stock.Source == StockSource.Begun || !left.ContainsKey(name), "a bar that was begun is not new any more");
                    Assert.Equal(whole, bar.Stock.Length, 0.02);
                    var some = random.Next(bar.Pieces.Count + 1);
                    foreach (var p in bar.Pieces.Take(some))
                    {
                        Assert.True(p.To <= whole + 0.02);
                        left[name] = whole - p.To - first.Rules.Kerf;
                        if (random.Next(5) == 0)
                        {
                            spoiled.Add(p.Piece.FullName);
                        }
                        else
                        {
                            cut.Add(p.Piece.FullName);
                            good.Add((p.Piece.FullName, p.Piece.Length));
                        }
                    }

                    if (random.Next(8) == 0)
                    {
                        bent.Add(bar.Name);
                        gone.Add(name);
                    }
                }

                if (late.Name is not null && good.Remove(late))
                    spoiled.Add(late.Name);
                var log = Told(new() { Cut = cut, Spoiled = spoiled, Out = bent }, plan, first);
                wanted = log.Wanted(pieces, []);
                rack = log.Left(first);
                Assert.Equal(pieces.Length - log.Good.Count(), wanted.Count);
            }

            Assert.Equal(pieces.Select(p => p.FullName).Order(StringComparer.Ordinal), good.Select(g => g.Name).Order(StringComparer.Ordinal));
        },
        iter: Cases.Of(150), threads: 1);

    [Fact]
    public void A_packet_gives_its_pieces_and_says_what_is_not_for_fabrication()
    {
        var piece = Assert.Single(Pieces.OfPacket("""
            {"drawings": [{"drawing": "CHW-1", "cuts": [{"piece": "1-A", "spool": "1", "size": "6", "schedule": "40", "length": 1146.4, "ends": ["bevel", "plain"]}]}]}
            """, "packet.json"));
        Assert.Equal(new Piece("1-A", "CHW-1", PipeKind.Of("6", "40", ""), 1146.4) { Spool = "1", FacedEnds = 1, AtStart = "bevel", AtEnd = "plain" }, piece);
        Assert.True(Assert.Single(Pieces.OfPacket("""{"drawings": [{"drawing": "CHW-1", "buildable": false, "cuts": [{"piece": "1-A", "size": "6", "schedule": "40", "length": 1146.4}]}]}""", "p.json")).NotForFabrication);
        Assert.Contains("drawings[0].cuts[0]", Assert.Throws<FormatException>(() => Pieces.OfPacket("""{"drawings": [{"cuts": [{"piece": "A"}]}]}""", "p.json")).Message, StringComparison.Ordinal);
        Assert.Throws<FormatException>(() => Pieces.OfPacket("[]", "p.json"));
        Assert.Throws<FormatException>(() => Pieces.OfPacket("{", "p.json"));
    }
}
