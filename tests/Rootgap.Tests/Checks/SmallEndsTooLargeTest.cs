namespace Rootgap.Tests.Checks;

public class SmallEndsTooLargeTest
{
    private const string Rule = "small-fitting-too-large";

    [Fact]
    public void A_socket_weld_elbow_of_NPS_3_is_noted() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: flange}
        """, line: "size: 3, schedule: 80, class: 150, ends: socket"), "NPS 3");

    [Fact]
    public void A_socket_weld_elbow_of_NPS_2_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: flange}
        """, line: "size: 2, schedule: 80, class: 150, ends: socket"));
}
