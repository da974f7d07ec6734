namespace Rootgap.Tests.Checks;

public class OddAngleTest
{
    private const string Rule = "odd-angle";

    // Arc = angle x radius: 229 mm (ASME B16.9) x pi/6 = 119.9; back (229 + 84.15) x pi/6 = 164.0; throat (229 - 84.15) x pi/6 = 75.8.
    [Fact]
    public void A_turn_of_thirty_degrees_is_told_with_its_arcs() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: north, by: 1450, to: elbow}
        {go: {north: 866.0254, east: 500}, to: flange}
        """), "30", "164", "119.9", "75.8");

    [Fact]
    public void A_turn_of_45_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 1450, to: elbow}
        {go: {north: 1000, east: 1000}, to: flange}
        """));
}
