namespace Rootgap.Tests.Checks;

public class PipeNotFromStockTest
{
    private const string Rule = "pipe-not-from-stock";

    [Fact]
    public void Pieces_that_two_bars_do_not_hold_are_noted() => Desk.Finds(Rule, "materials[0]", Desk.Drawing("""
        {go: up, by: 4500, to: weld, end: field}
        {go: up, by: 4500, to: weld, end: field}
        {go: up, by: 2500, to: flange}
        """, more: """
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 40, quantity: 11.6 m}
        shop: {stock: [6000]}
        """), "2 bars of 6000", "take 3");

    [Fact]
    public void Pieces_that_two_bars_hold_are_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 5500, to: weld, end: field}
        {go: up, by: 3500, to: weld, end: field}
        {go: up, by: 2500, to: flange}
        """, more: """
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 40, quantity: 11.6 m}
        shop: {stock: [6000]}
        """));

    /// <summary>A pipe's item that no piece is cut from: there are no bars to count.</summary>
    [Fact]
    public void A_pipes_item_given_to_two_flanges_is_told_by_the_rules_that_look_for_that()
    {
        var yaml = Desk.Drawing("{go: up, by: 1450, to: elbow, pipe item: 2}\n{go: north, by: 1450, to: flange, item: 1, pipe item: 2}", more: """
            materials:
              - {item: 1, what: pipe, size: 2, schedule: 40, quantity: 6 m}
              - {item: 2, what: pipe, size: 6, schedule: 40, quantity: 6 m}
            """, start: "to: flange, item: 1");
        Desk.IsSilent(Rule, yaml);
        Desk.Finds("item-is-another-part", "", yaml, "pipe");
        Desk.IsSilent("fault-in-program", yaml);
    }

    /// <summary>What kind of flange a row lists is held against flanges alone.</summary>
    [Theory]
    [InlineData("to: cap, item: 1")]
    [InlineData("to: weld, item: 1")]
    [InlineData("to: flange, pipe item: 1")]
    public void A_flanges_item_given_to_another_part_is_told_by_the_rule_that_looks_for_that(string end)
    {
        var yaml = Desk.Drawing("{go: up, by: 1450, to: elbow}\n{go: north, by: 1450, " + end + "}", more: """
            materials:
              - {item: 1, what: flange WN RF, size: 6, class: 150, bore: 40, quantity: 2}
            """);
        Desk.IsSilent("fault-in-program", yaml);
        if (end.Contains("cap", StringComparison.Ordinal))
            Desk.Finds("item-is-another-part", "", yaml, "flange");
    }
}
