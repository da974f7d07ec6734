namespace Rootgap.Tests.Checks;

public class LegWithoutSlopeTest
{
    private const string Rule = "leg-without-slope";

    [Fact]
    public void A_level_leg_among_sloped_ones_is_found() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: north, by: 3000, fall: 1:100, to: elbow}
        {go: east, by: 2000, to: elbow}
        {go: north, by: 3000, fall: 1:100, to: flange}
        """), "level", "2 other legs");

    [Fact]
    public void A_drop_among_sloped_legs_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 3000, fall: 1:100, to: elbow}
        {go: down, by: 2000, to: elbow}
        {go: north, by: 3000, fall: 1:100, to: flange}
        """));
}
