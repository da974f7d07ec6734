namespace Rootgap.Tests.Checks;

public class FinalFitTwiceOnLineTest
{
    private const string Rule = "final-fit-twice-on-one-line";

    [Fact]
    public void Two_final_fit_welds_on_one_straight_line_are_found() => Desk.Finds(Rule, "runs[0].legs[2]", Desk.Drawing("""
        {go: up, by: 1500, to: elbow}
        {go: north, by: 1500, to: weld, end: final-fit}
        {go: north, by: 1500, to: flange, end: final-fit}
        """), "W4", "W5");

    [Fact]
    public void Two_final_fit_welds_in_two_directions_are_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1500, to: elbow, end: final-fit}
        {go: north, by: 1500, to: weld, end: final-fit}
        {go: north, by: 1500, to: flange}
        """));
}
