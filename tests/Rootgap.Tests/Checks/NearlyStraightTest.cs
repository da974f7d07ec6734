namespace Rootgap.Tests.Checks;

public class NearlyStraightTest
{
    private const string Rule = "nearly-straight";

    // Geometry: atan(35/1000) = 2.0 degrees.
    [Fact]
    public void An_elbow_that_turns_two_degrees_is_found() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: north, by: 1450, to: elbow}
        {go: {north: 1000, east: 35}, to: flange}
        """), "2 degrees");

    [Fact]
    public void An_elbow_that_turns_ten_degrees_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 1450, to: elbow}
        {go: {north: 1000, east: 176}, to: flange}
        """));
}
