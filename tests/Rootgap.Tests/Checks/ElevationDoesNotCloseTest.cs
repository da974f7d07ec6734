namespace Rootgap.Tests.Checks;

public class ElevationDoesNotCloseTest
{
    private const string Rule = "elevation-does-not-close";

    [Fact]
    public void Legs_that_end_at_another_elevation_than_stated_are_found() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: flange, at: {north: 3200, up: 1400}}
        """), "50 up");

    [Fact]
    public void The_stated_elevation_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: flange, at: {north: 3200, up: 1450.5}}
        """));

    [Fact]
    public void A_miss_in_plan_is_told_by_its_own_rule() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: flange, at: {north: 3110, up: 1450}}
        """));
}
