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
}
