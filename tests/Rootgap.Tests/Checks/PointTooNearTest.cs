namespace Rootgap.Tests.Checks;

public class PointTooNearTest
{
    private const string Rule = "point-too-near";

    [Fact]
    public void A_dimension_point_next_to_nothing_after_another_is_found() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: north, by: 1500, to: point}
        {go: north, by: 0.4, to: point}
        {go: north, by: 1500, to: flange}
        """), "0.4");

    [Fact]
    public void Points_fifty_apart_are_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 1500, to: point}
        {go: north, by: 50, to: point}
        {go: north, by: 1500, to: flange}
        """));
}
