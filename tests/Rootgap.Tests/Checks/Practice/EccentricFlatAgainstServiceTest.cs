namespace Rootgap.Tests.Checks;

public class EccentricFlatAgainstServiceTest
{
    private const string Rule = "eccentric-flat-against-service";

    // common practice
    [Fact]
    public void Flat_at_the_bottom_in_a_pumps_suction_is_noted() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: north, by: 2000, to: reducer, size: 4, kind: eccentric, flat: bottom}
        {go: north, by: 1000, to: flange}
        """, more: """
        title: Pump P-1 suction
        """), "pump's suction");

    [Fact]
    public void Flat_at_the_top_in_a_condensate_line_is_noted() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: north, by: 2000, to: reducer, size: 4, kind: eccentric, flat: top}
        {go: north, by: 1000, to: flange}
        """, more: """
        service: {fluid: condensate}
        """), "should drain");

    [Fact]
    public void Flat_at_the_top_in_a_suction_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 2000, to: reducer, size: 4, kind: eccentric, flat: top}
        {go: north, by: 1000, to: flange}
        """, more: """
        title: Pump P-1 suction
        """));

    [Fact]
    public void Flat_at_the_top_in_a_water_line_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 2000, to: reducer, size: 4, kind: eccentric, flat: top}
        {go: north, by: 1000, to: flange}
        """, more: """
        service: {fluid: water}
        """));
}
