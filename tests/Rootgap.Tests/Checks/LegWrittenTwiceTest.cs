namespace Rootgap.Tests.Checks;

public class LegWrittenTwiceTest
{
    private const string Rule = "leg-written-twice";

    [Fact]
    public void The_same_valve_at_the_same_distance_twice_is_found() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: north, by: 1500, to: valve, kind: gate}
        {go: north, by: 1500, to: valve, kind: gate}
        {go: north, by: 900, to: flange}
        """), "1500", "valve");

    [Fact]
    public void Two_valves_at_different_distances_are_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 1500, to: valve, kind: gate}
        {go: north, by: 1400, to: valve, kind: gate}
        {go: north, by: 900, to: flange}
        """));

    [Fact]
    public void Points_at_equal_distances_are_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 1500, to: point}
        {go: north, by: 1500, to: point}
        {go: north, by: 900, to: flange}
        """));
}
