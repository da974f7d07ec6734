namespace Rootgap.Tests.Checks;

public class NoMakeUpWithoutPipeTest
{
    private const string Rule = "no-make-up-without-pipe";

    [Fact]
    public void Two_socket_weld_elbows_made_up_to_each_other_are_found() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: up, by: 1500, to: elbow}
        {go: north, by: makeup, to: elbow}
        {go: up, by: 800, to: flange}
        """, line: "size: 2, schedule: 80, class: 150, ends: socket"), "socket");

    [Fact]
    public void Two_butt_weld_elbows_made_up_to_each_other_are_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1500, to: elbow}
        {go: north, by: makeup, to: elbow}
        {go: up, by: 800, to: flange}
        """));
}
