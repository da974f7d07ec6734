namespace Rootgap.Tests.Checks;

public class ShopFigureUnusualTest
{
    private const string Rule = "shop-figure-unusual";

    private static string Drawing(string shop) => Desk.Drawing("""
        {go: east, by: 1500, to: elbow}
        {go: north, by: 900, to: flange}
        """, more: $$"""
        shop: { {{shop}} }
        """);

    // common practice: an open root of 1.6 to 3.2 mm, a saw cut of 1 to 4, bars of 6 and 12 m
    [Theory]
    [InlineData("root gap: 32", "root gap is 32")]
    [InlineData("kerf: 0.3", "kerf is 0.3")]
    [InlineData("stock: [600, 6000]", "stock is 600")]
    [InlineData("hi-lo: 15", "hi-lo is 15")]
    public void A_figure_a_place_off_is_found(string shop, string says) => Desk.Finds(Rule, "shop", Drawing(shop), says);

    // Common practice: the least and the most that shops have; just inside is silent, just outside is told.
    [Theory]
    [InlineData("root gap", 1, 6)]
    [InlineData("branch gap", 1, 6)]
    [InlineData("hi-lo", 0.5, 3)]
    [InlineData("kerf", 0.5, 6)]
    [InlineData("socket gap", 1, 3)]
    [InlineData("shortest pipe", 25, 500)]
    [InlineData("gap variation", 0.2, 3)]
    [InlineData("linear tolerance", 0.5, 15)]
    [InlineData("stand height", 300, 2000)]
    [InlineData("on end limit", 300, 4000)]
    [InlineData("angular tolerance", 0.05, 1.5)]
    [InlineData("vice limit", 5, 100)]
    public void Each_figure_has_a_least_and_a_most(string key, double least, double most)
    {
        foreach (var (value, told) in new[] { (least, ""), (most, ""), (least * 0.98, "warn"), (most * 1.02, "warn") })
            Desk.Tells(Rule, told, Drawing(FormattableString.Invariant($"{key}: {value}")));
    }

    [Theory]
    [InlineData("root gap: 2.4, kerf: 3, hi-lo: 1.5, socket gap: 1.6, shortest pipe: 75, stock: [6000, 12000]")]
    [InlineData("root gap: 0, final fit extra: 100")]
    public void What_shops_have_is_silent(string shop) => Desk.IsSilent(Rule, Drawing(shop));
}
