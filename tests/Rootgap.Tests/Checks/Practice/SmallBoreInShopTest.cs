namespace Rootgap.Tests.Checks;

public class SmallBoreInShopTest
{
    private const string Rule = "small-bore-in-shop";

    [Fact]
    public void A_one_inch_run_with_four_shop_welds_is_noted() => Desk.Finds(Rule, "runs[0]", Desk.Drawing("""
        {go: north, by: 1000, to: elbow}
        {go: up, by: 1000, to: flange}
        """, line: "size: 1, schedule: 40, class: 150"), "4 shop welds");

    [Fact]
    public void The_row_of_a_drain_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 1000, to: drain, size: 1, branch schedule: 80, nipple: 100, valve: gate, face to face: 110}
        {go: north, by: 1000, to: flange}
        """));

    [Fact]
    public void A_two_inch_run_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 1000, to: elbow}
        {go: up, by: 1000, to: flange}
        """, line: "size: 2, schedule: 40, class: 150"));
}
