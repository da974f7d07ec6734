using System.Text;
using System.Text.Json;
using Rootgap.Cutting;
using Rootgap.Drawings;

namespace Rootgap.Tests.Cutting;

/// <summary>A plan that was written can be shown again, and a shop without a rack can plan. Expectation: the written form itself, byte for byte; and sums done by hand.</summary>
public class CuttingPlanReadTest
{
    private static string Written(CuttingPlan plan)
    {
        using var stream = new MemoryStream();
        using (var json = new Utf8JsonWriter(stream, new JsonWriterOptions { Indented = true }))
            CuttingPlanJson.Write(json, plan, "0");
        return Encoding.UTF8.GetString(stream.ToArray());
    }

    private static readonly PipeKind Six = PipeKind.Of("6", "40", "A106-B");

    [Fact]
    public void A_plan_read_back_and_written_again_is_the_same_text()
    {
        var rack = new Rack(
            [new("A1", Six, 6000, 1, StockSource.OnHand) { Heat = "81734", Cost = 34.2 }, new("R1", Six, 2480, 1, StockSource.Remnant), new("N1", Six, 6000, null, StockSource.Buy)],
            new CuttingRules { Kerf = 3, EndTrim = 10, ShortestRemnant = 400 });
        var pieces = Enumerable.Range(1, 9).Select(i => new Piece($"1-{i}", "D-1", Six, 500.123 + (217.31 * i)) { Spool = "1", FacedEnds = 2 })
            .Append(new Piece("2-A", "D-1", PipeKind.Of("10", "40", "A106-B"), 900)).ToList();
        var text = Written(CuttingPlanner.Plan(pieces, rack, TimeSpan.MaxValue, stop: TestContext.Current.CancellationToken));
        var read = CuttingPlanJson.Read(text);
        Assert.Equal(text, Written(read));
        Assert.Equal("2-A", Assert.Single(read.Unplaced).Piece.Id);
        Assert.Equal(9, read.Groups.Sum(g => g.Bars.Sum(b => b.Pieces.Count)));
    }

    [Theory]
    [InlineData("")]
    [InlineData("{}")]
    [InlineData("[1]")]
    [InlineData("{\"rules\":{\"kerf\":3},\"groups\":[]}")]
    public void What_is_no_plan_is_refused_in_words(string text) =>
        Assert.Contains("no cutting plan", Assert.Throws<FormatException>(() => CuttingPlanJson.Read(text)).Message, StringComparison.Ordinal);

    [Fact]
    public void Without_a_rack_each_pipe_is_bought_in_the_lengths_of_its_own_shop()
    {
        var two = PipeKind.Of("2", "80", "A106-B");
        var rack = Rack.ToBuy([
            ([new("1-A", "D-1", Six, 5990), new("1-B", "D-1", Six, 5990)], new ShopRules { Stock = [6000], Kerf = 3 }),
            ([new("1-A", "D-2", two, 100), new("1-B", "D-2", Six, 11000)], new ShopRules { Stock = [6000, 12000], Kerf = 5 }),
        ]);
        Assert.Equal(5, rack.Rules.Kerf);
        Assert.Equal([(two, 6000.0), (two, 12000.0), (Six, 6000.0), (Six, 12000.0)], rack.Bars.Select(b => (b.Pipe, b.Length)));
        Assert.All(rack.Bars, b => Assert.Equal((null, StockSource.Buy), (b.Quantity, b.Source)));
        Assert.Equal(4, rack.Bars.Select(b => b.Id).Distinct(StringComparer.Ordinal).Count());
    }
}
