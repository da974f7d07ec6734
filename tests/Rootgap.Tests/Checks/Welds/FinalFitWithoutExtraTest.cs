namespace Rootgap.Tests.Checks;

public class FinalFitWithoutExtraTest
{
    private const string Rule = "final-fit-without-extra";

    [Fact]
    public void A_final_fit_weld_in_a_shop_that_leaves_nothing_is_found() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: up, by: 1500, to: elbow, end: final-fit}
        {go: north, by: 1500, to: flange}
        """, more: """
        shop: {final fit extra: 0}
        """), "0 extra");

    [Fact]
    public void A_final_fit_weld_with_the_usual_extra_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1500, to: elbow, end: final-fit}
        {go: north, by: 1500, to: flange}
        """, more: """
        shop: {final fit extra: 100}
        """));

    [Fact]
    public void No_extra_and_no_final_fit_weld_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1500, to: elbow, end: field}
        {go: north, by: 1500, to: flange}
        """, more: """
        shop: {final fit extra: 0}
        """));
}
