namespace Rootgap.Tests.Checks;

public class PointInFittingTest
{
    private const string Rule = "point-in-fitting";

    [Fact]
    public void A_point_inside_an_elbows_take_off_is_found() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 200, to: point}
        {go: north, by: 1500, to: flange}
        """), "32.2");

    [Fact]
    public void A_point_on_the_pipe_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 240, to: point}
        {go: north, by: 1500, to: flange}
        """));
}
