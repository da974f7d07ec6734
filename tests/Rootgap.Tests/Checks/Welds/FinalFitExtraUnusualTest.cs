namespace Rootgap.Tests.Checks;

public class FinalFitExtraUnusualTest
{
    private const string Rule = "final-fit-extra-unusual";

    // common practice: 50 to 150 mm
    [Fact]
    public void An_extra_of_a_thousand_is_found() => Desk.Finds(Rule, "shop", Desk.Drawing("""
        {go: up, by: 1500, to: elbow, end: final-fit}
        {go: north, by: 1500, to: flange}
        """, more: """
        shop: {final fit extra: 1000}
        """), "1000 extra");

    [Fact]
    public void An_extra_of_forty_is_noted() => Desk.Finds(Rule, "shop", Desk.Drawing("""
        {go: up, by: 1500, to: elbow, end: final-fit}
        {go: north, by: 1500, to: flange}
        """, more: """
        shop: {final fit extra: 40}
        """), "40 extra");

    [Fact]
    public void An_extra_of_just_a_hundred_and_fifty_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1500, to: elbow, end: final-fit}
        {go: north, by: 1500, to: flange}
        """, more: """
        shop: {final fit extra: 150}
        """));

    [Fact]
    public void An_odd_extra_that_no_weld_gets_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1500, to: elbow, end: shop}
        {go: north, by: 1500, to: flange}
        """, more: """
        shop: {final fit extra: 1000}
        """));
}
