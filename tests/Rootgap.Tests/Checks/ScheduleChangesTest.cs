namespace Rootgap.Tests.Checks;

public class ScheduleChangesTest
{
    private const string Rule = "schedule-changes";

    [Fact]
    public void A_leg_of_another_schedule_is_found() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, schedule: 80, to: flange}
        """), "40", "80");

    [Fact]
    public void A_leg_that_says_the_lines_own_schedule_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, schedule: 40, to: flange}
        """));

    [Fact]
    public void Another_schedule_after_a_reducer_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: reducer, size: 4}
        {go: up, by: 3200, schedule: 80, to: flange}
        """));
}
