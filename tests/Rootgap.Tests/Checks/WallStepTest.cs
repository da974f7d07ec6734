namespace Rootgap.Tests.Checks;

public class WallStepTest
{
    private const string Rule = "wall-step";

    // ASME B36.10M: NPS 6 walls 7.11 and 10.97 mm, 3.86 apart.
    [Fact]
    public void Schedule_80_against_40_is_found() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, schedule: 80, to: flange}
        """), "7.11", "10.97", "3.86", "1.5");

    // ASME B36.10M: the same wall at NPS 6.
    [Fact]
    public void Standard_wall_against_schedule_40_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, schedule: STD, to: flange}
        """));

    [Fact]
    public void A_step_within_the_shops_hi_lo_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, schedule: 80, to: flange}
        """, more: """
        shop: {hi-lo: 4}
        """));
}
