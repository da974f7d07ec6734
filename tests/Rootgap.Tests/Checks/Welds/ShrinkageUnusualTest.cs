namespace Rootgap.Tests.Checks;

public class ShrinkageUnusualTest
{
    private const string Rule = "shrinkage-unusual";

    private static string Drawing(string shrinkage) => Desk.Drawing("""
        {go: up, by: 1500, to: elbow}
        {go: north, by: 1500, to: flange}
        """, more: $$"""
        shop: {shrinkage: {{shrinkage}}}
        """);

    // TWI, "How much shall I allow for weld shrinkage": 1.5 to 3 mm. A file that gave half of a weld's 2 mm says 1.
    [Fact]
    public void Half_of_what_a_weld_draws_in_is_found() => Desk.Finds(Rule, "shop", Drawing("1"), "by 1;");

    [Fact]
    public void A_digit_too_many_is_found() => Desk.Finds(Rule, "shop", Drawing("20"), "by 20;");

    [Fact]
    public void The_published_range_is_silent()
    {
        Desk.IsSilent(Rule, Drawing("1.5"));
        Desk.IsSilent(Rule, Drawing("3"));
    }
}
