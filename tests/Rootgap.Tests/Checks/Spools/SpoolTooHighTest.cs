namespace Rootgap.Tests.Checks;

public class SpoolTooHighTest
{
    private const string Rule = "spool-over-height";

    [Fact]
    public void A_spool_too_high_in_its_third_direction_is_found() => Desk.Finds(Rule, "runs[0].legs[2]", Desk.Drawing("""
        {go: north, by: 6000, to: elbow}
        {go: east, by: 2300, to: elbow}
        {go: up, by: 2200, to: flange}
        """, more: """
        shop: {envelope: {length: 12000, width: 2600, height: 2000}}
        """), "high", "shop's limit is 2000");

    [Fact]
    public void A_spool_that_is_turned_to_fit_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 6000, to: elbow}
        {go: east, by: 2000, to: flange}
        """));
}
