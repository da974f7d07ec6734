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

    // ASME B16.11: NPS 2 class 3000 socket-weld elbow, centre to socket bottom 38 mm; with 1.6 off the bottom the pipe begins at 39.6. ASME B36.10M: NPS 1 is 33.4 mm over, half of it 16.7.
    [Fact]
    public void A_hole_over_a_socket_is_found() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 50, to: outlet, size: 1, branch: up, ends: socket}
        {go: north, by: 1500, to: flange}
        """, line: "size: 2, schedule: 80, class: 150, ends: socket"), "16.7");

    [Fact]
    public void An_outlet_on_the_pipe_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 240, to: outlet, size: 2, branch: up}
        {go: north, by: 1500, to: flange}
        """));
}
