using System.Text;
using System.Text.Json;
using Rootgap.Cutting;

namespace Rootgap.Tests.Cutting;

public class RecutTest
{
    private static readonly PipeKind Pipe = PipeKind.Of("6", "40", "A106-B");

    private static string Json(CuttingPlan plan)
    {
        using var stream = new MemoryStream();
        using (var json = new Utf8JsonWriter(stream))
            CuttingPlanJson.Write(json, plan, "test");
        return Encoding.UTF8.GetString(stream.ToArray());
    }

    [Fact]
    public void A_spoiled_piece_is_cut_again_from_what_is_left()
    {
        // One bar of 6000: A 2000, B 1500, C 1000 in this order, 3 mm kerfs. A is good, B is spoiled at 2003 + 1500 = 3503:
        // 6000 - 3503 - 3 = 2494 is left, where C 1000 goes; B 1500 and C need 2503: one more bar.
        Piece[] pieces = [new("A", "D", Pipe, 2000), new("B", "D", Pipe, 1500), new("C", "D", Pipe, 1000)];
        var rack = new Rack([new StockBar("R", Pipe, 6000, 2, StockSource.OnHand)], new CuttingRules());
        var plan = CuttingPlanner.Plan(pieces, rack, TimeSpan.FromMinutes(1), stop: TestContext.Current.CancellationToken);
        var recut = Recut.After(Json(plan), pieces, rack, cut: ["A"], spoiled: ["D B"]);
        Assert.Equal("B C", string.Join(' ', recut.Pieces.Select(p => p.Id)));
        Assert.Collection(recut.Rack.Bars,
            b => Assert.Equal((2494.0, 1, StockSource.Begun), (b.Length, b.Quantity, b.Source)),
            b => Assert.Equal(("R", 1), (b.Id, b.Quantity)));
        var again = CuttingPlanner.Plan(recut.Pieces, recut.Rack, TimeSpan.FromMinutes(1), stop: TestContext.Current.CancellationToken);
        PlanChecker.Check(again, recut.Pieces, recut.Rack);
        Assert.Equal(1, Assert.Single(again.Groups).NewBars);
        Assert.True(again.Groups[0].IsProven);
    }

    [Fact]
    public void Nothing_cut_yet_means_the_same_plan_again()
    {
        Piece[] pieces = [new("A", "D", Pipe, 2000)];
        var rack = new Rack([new StockBar("R", Pipe, 6000, 2, StockSource.OnHand)], new CuttingRules());
        var plan = CuttingPlanner.Plan(pieces, rack, TimeSpan.FromMinutes(1), stop: TestContext.Current.CancellationToken);
        var recut = Recut.After(Json(plan), pieces, rack, [], []);
        Assert.Equal(pieces, recut.Pieces);
        Assert.Equal(rack.Bars, recut.Rack.Bars);
    }

    [Fact]
    public void A_mark_that_the_plan_does_not_know_is_named()
    {
        var rack = new Rack([new StockBar("R", Pipe, 6000, 2, StockSource.OnHand)], new CuttingRules());
        Assert.Equal("Z", Assert.Single(Recut.After("""{"groups": []}""", [], rack, ["Z"], []).Unknown));
        Assert.Throws<FormatException>(() => Recut.After("{}", [], rack, [], []));
        Assert.Throws<FormatException>(() => Recut.After("no", [], rack, [], []));
    }

    [Fact]
    public void A_packet_gives_its_pieces()
    {
        var piece = Assert.Single(Pieces.OfPacket("""
            {"drawings": [{"drawing": "CHW-1", "cuts": [{"piece": "1-A", "spool": "1", "size": "6", "schedule": "40", "length": 1146.4, "ends": ["bevel", "plain"]}]}]}
            """, "packet.json"));
        Assert.Equal(new Piece("1-A", "CHW-1", PipeKind.Of("6", "40", ""), 1146.4) { Spool = "1", FacedEnds = 1 }, piece);
        Assert.Contains("drawings[0].cuts[0]", Assert.Throws<FormatException>(() => Pieces.OfPacket("""{"drawings": [{"cuts": [{"piece": "A"}]}]}""", "p.json")).Message, StringComparison.Ordinal);
        Assert.Throws<FormatException>(() => Pieces.OfPacket("[]", "p.json"));
        Assert.Throws<FormatException>(() => Pieces.OfPacket("{", "p.json"));
    }
}
