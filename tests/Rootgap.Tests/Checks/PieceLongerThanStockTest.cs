namespace Rootgap.Tests.Checks;

public class PieceLongerThanStockTest
{
    private const string Rule = "piece-longer-than-stock";

    [Fact]
    public void A_piece_longer_than_the_longest_stock_is_found_and_told_where_a_weld_would_go() => Assert.Contains(
        "to: weld",
        Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("{go: up, by: 13000, to: flange}"), "12815.6").Remedy,
        StringComparison.Ordinal);

    // 12000 + 2 x 89 (ASME B16.5, NPS 6 class 150 weld neck) + 2 x 3.2
    [Fact]
    public void A_piece_of_just_the_stock_length_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("{go: up, by: 12184.4, to: flange}"));
}
