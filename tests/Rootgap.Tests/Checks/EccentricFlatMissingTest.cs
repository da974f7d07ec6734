namespace Rootgap.Tests.Checks;

public class EccentricFlatMissingTest
{
    private const string Rule = "eccentric-flat-missing";

    [Fact]
    public void An_eccentric_reducer_that_does_not_say_its_flat_side_is_found() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: north, by: 1500, to: reducer, size: 4, kind: eccentric}
        {go: north, by: 1500, to: flange}
        """), "flat");

    [Fact]
    public void An_eccentric_reducer_with_its_flat_side_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 1500, to: reducer, size: 4, kind: eccentric, flat: top}
        {go: north, by: 1500, to: flange}
        """));

    [Fact]
    public void A_concentric_reducer_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 1500, to: reducer, size: 4}
        {go: north, by: 1500, to: flange}
        """));
}
