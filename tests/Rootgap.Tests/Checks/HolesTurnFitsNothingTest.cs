namespace Rootgap.Tests.Checks;

public class HolesTurnFitsNothingTest
{
    private const string Rule = "holes-turn-fits-nothing";

    // ASME B16.5: NPS 6 class 150 has 8 holes, half a pitch is 22.5 degrees.
    [Fact]
    public void Ten_degrees_with_eight_holes_are_noted() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: north, by: 1450, to: flange, holes: 10}
        """), "22.5");

    [Fact]
    public void Half_a_pitch_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 1450, to: flange, holes: 22.5}
        """));
}
