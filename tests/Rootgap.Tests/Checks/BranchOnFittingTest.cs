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
        {go: north, by: 60, to: outlet, size: 1, branch: up, ends: socket}
        {go: north, by: 1500, to: flange}
        """, line: "size: 2, schedule: 80, class: 150, ends: socket"), "16.7");

    [Fact]
    public void An_outlet_on_the_pipe_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 240, to: outlet, size: 2, branch: up}
        {go: north, by: 1500, to: flange}
        """));

    // ASME B16.5: a slip-on flange NPS 6 class 150 is 40 through its hub; the pad's edge stands 57.15 + 50 from the branch's middle.
    [Theory]
    [InlineData(140, "warn")]
    [InlineData(150, "")]
    [InlineData(30, "stop")]
    public void A_pad_on_the_hub_of_a_slip_on_flange_is_found(double by, string told) => Desk.Tells(Rule, told, Desk.Drawing($$"""
        {go: north, by: {{by}}, to: stub-in, name: S, branch: up, size: 4, pad: yes, pad width: 50}
        {go: north, by: 1500, to: flange}
        """, line: "size: 6, schedule: 40, class: 150, flange: SO"));
}
