namespace Rootgap.Tests.Checks;

public class EccentricFlatAlongLineTest
{
    private const string Rule = "eccentric-flat-along-line";

    [Fact]
    public void A_flat_top_on_an_upright_line_is_found() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: up, by: 1500, to: reducer, size: 4, kind: eccentric, flat: top}
        {go: up, by: 1500, to: flange}
        """), "along");

    [Fact]
    public void A_flat_side_to_the_north_on_an_upright_line_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1500, to: reducer, size: 4, kind: eccentric, flat: north}
        {go: up, by: 1500, to: flange}
        """));
}
