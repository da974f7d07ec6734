namespace Rootgap.Tests.Checks;

public class FittingClassForWallTest
{
    private const string Rule = "fitting-class-for-wall";

    // ASME B16.11 table 2: socket-weld class 3000 goes with schedule 80.
    [Fact]
    public void A_class_3000_elbow_on_schedule_160_is_noted() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: flange}
        """, line: "size: 1, schedule: 160, class: 150, ends: socket, flange: SW"), "3000", "80");

    [Fact]
    public void A_class_3000_elbow_on_schedule_80_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: flange}
        """, line: "size: 1, schedule: 80, class: 150, ends: socket, flange: SW"));
}
