namespace Rootgap.Tests.Checks;

public class BranchOnFittingTest
{
    private const string Rule = "branch-on-fitting";

    // ASME B16.9: NPS 6 long-radius elbow 229 mm, and 3.2 of gap; the pipe begins at 232.2.
    [Fact]
    public void An_outlet_inside_an_elbows_take_off_is_found() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 200, to: outlet, size: 2, branch: up}
        {go: north, by: 1500, to: flange}
        """), "32.2 inside", "elbow");

    // ASME B36.10M: NPS 2 is 60.3 mm over, half of it 30.2.
    [Fact]
    public void A_hole_over_the_weld_is_found() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 250, to: outlet, size: 2, branch: up}
        {go: north, by: 1500, to: flange}
        """), "30.2", "17.8");

    [Fact]
    public void An_outlet_with_its_half_diameter_of_pipe_beside_it_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 263, to: outlet, size: 2, branch: up}
        {go: north, by: 1500, to: flange}
        """));
}
