namespace Rootgap.Tests.Checks;

public class DoesNotCloseTest
{
    private const string Rule = "does-not-close";

    [Fact]
    public void Legs_that_miss_the_stated_place_are_found_axis_by_axis() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: flange, at: {north: 3110, up: 1450}}
        """), "90 north");

    [Fact]
    public void Legs_that_miss_by_what_a_tape_cannot_show_are_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: flange, at: {north: 3200.9, up: 1450}}
        """));

    [Fact]
    public void An_elevation_alone_is_told_by_its_own_rule() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: flange, at: {north: 3200, up: 1400}}
        """));
}
