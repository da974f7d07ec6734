namespace Rootgap.Tests.Checks;

public class WeldsTooCloseTest
{
    private const string Rule = "welds-too-close";

    // 600 - 2 x 229 (ASME B16.9) - 2 x 3.2 = 135.6 of pipe, and one root gap: 138.8 from weld to weld. NPS 6 is 168.3 outside (ASME B36.10M).
    [Fact]
    public void Welds_nearer_than_the_shop_states_are_found() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 600, to: elbow}
        {go: up, by: 1000, to: flange}
        """, more: """
        shop: {weld spacing: 150}
        """), "138.8 apart", "11.2 too close");

    // The extra of a final-fit weld is cut off again at the site: the welds stand where the drawing has them.
    [Fact]
    public void Extra_for_the_final_fit_does_not_part_the_welds() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 600, to: elbow, end: final-fit}
        {go: up, by: 1000, to: flange}
        """, more: """
        shop: {weld spacing: 150, final fit extra: 100, shrinkage: 1.6}
        """), "138.8 apart", "11.2 too close");

    [Fact]
    public void Welds_nearer_than_one_outside_diameter_are_noted() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 600, to: elbow}
        {go: up, by: 1000, to: flange}
        """), "168.3");

    [Fact]
    public void Welds_just_as_far_apart_as_the_shop_states_are_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 611.2, to: elbow}
        {go: up, by: 1000, to: flange}
        """, more: """
        shop: {weld spacing: 150}
        """));

    [Fact]
    public void Fitting_on_fitting_has_one_weld_and_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: makeup, to: elbow}
        {go: up, by: 1000, to: flange}
        """));
}
