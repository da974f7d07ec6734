namespace Rootgap.Tests.Checks;

public class HoleLineUnstatedTest
{
    private const string Rule = "hole-line-unstated";

    [Fact]
    public void A_skew_face_without_a_line_for_its_holes_is_found() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: {north: 1000, up: 1000}, to: flange}
        """), "neither upright nor level");

    // arctan(1/14) = 4.1 degrees, arctan(1/9) = 6.3: of a face from upright, and of one from level.
    [Theory]
    [InlineData("north: 1400, up: 100", "")]
    [InlineData("north: 900, up: 100", "warn")]
    [InlineData("north: 100, up: 1400", "")]
    [InlineData("north: 100, up: 900", "warn")]
    [InlineData("north: 360, up: 940", "warn")]
    public void A_face_is_upright_or_level_within_five_degrees(string go, string told) => Desk.Tells(Rule, told, Desk.Drawing($"{{go: {{{go}}}, by: 1500, to: flange}}", start: "to: open"));

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
