namespace Rootgap.Tests.Checks;

public class WrittenMakeupTest
{
    private const string Rule = "makeup-written-as-figure";

    // ASME B16.9: 2 x 229, and a root gap of 3.2.
    [Fact]
    public void A_figure_that_is_fitting_on_fitting_is_noted() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 461.2, to: elbow}
        {go: up, by: 1000, to: flange}
        """), "461.2");

    [Fact]
    public void The_word_itself_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: makeup, to: elbow}
        {go: up, by: 1000, to: flange}
        """));

    [Fact]
    public void A_figure_that_leaves_the_gap_out_is_another_matter() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 458, to: elbow}
        {go: up, by: 1000, to: flange}
        """));
}
