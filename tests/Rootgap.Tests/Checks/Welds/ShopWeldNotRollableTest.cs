namespace Rootgap.Tests.Checks;

public class ShopWeldNotRollableTest
{
    private const string Rule = "shop-weld-not-rollable";

    [Fact]
    public void A_weld_with_long_arms_on_both_sides_is_found() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: north, by: 3000, to: elbow}
        {go: up, by: 3000, to: elbow}
        {go: north, by: 3000, to: elbow}
        {go: east, by: 1500, to: flange}
        """), "cannot be rolled");

    [Fact]
    public void A_flat_spool_with_one_long_arm_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 3000, to: elbow}
        {go: up, by: 1500, to: flange}
        """));
}
