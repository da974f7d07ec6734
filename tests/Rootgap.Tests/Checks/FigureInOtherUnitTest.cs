namespace Rootgap.Tests.Checks;

public class FigureInOtherUnitTest
{
    private const string Rule = "figure-in-other-unit";

    // 57 in. is 1447.8 mm
    [Fact]
    public void Inches_taken_for_millimetres_are_noted() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 57, to: elbow}
        {go: east, by: 1800, to: elbow}
        {go: north, by: 2200, to: elbow}
        {go: up, by: 1300, to: flange}
        """), "1447.8");

    [Fact]
    public void A_leg_somewhat_shorter_than_the_others_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 700, to: elbow}
        {go: north, by: 2600, to: elbow}
        {go: east, by: 1800, to: elbow}
        {go: north, by: 2200, to: elbow}
        {go: up, by: 1300, to: flange}
        """));
}
