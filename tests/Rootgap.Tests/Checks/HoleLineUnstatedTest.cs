namespace Rootgap.Tests.Checks;

public class HoleLineUnstatedTest
{
    private const string Rule = "hole-line-unstated";

    [Fact]
    public void A_skew_face_without_a_line_for_its_holes_is_found() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: {north: 1000, up: 1000}, to: flange}
        """), "neither upright nor level");

    [Fact]
    public void A_skew_face_with_its_line_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: {north: 1000, up: 1000}, to: flange, holes from: east}
        """));

    [Fact]
    public void A_slope_leaves_the_face_upright() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 1450, fall: 1:50, to: flange}
        """));
}
