namespace Rootgap.Tests.Checks;

public class MetersAndBellowsTest
{
    private static string Line(string what, int before, int behind) => Desk.Drawing($$"""
        {go: up, by: 1450, to: elbow}
        {go: north, by: {{before}}, to: in-line item, what: {{what}}, face to face: 200, mass: 40}
        {go: north, by: {{behind}}, to: elbow}
        {go: east, by: 1450, to: flange}
        """);

    // Five times 152.4 mm (common practice).
    [Theory]
    [InlineData("flow meter", 770, 770, "")]
    [InlineData("flow meter", 750, 770, "note")]
    [InlineData("orifice plate", 770, 750, "note")]
    [InlineData("strainer", 600, 600, "")]
    public void A_meter_has_straight_pipe_on_both_sides(string what, int before, int behind, string told) => Desk.Tells("meter-run-short", told, Line(what, before, behind));

    [Fact]
    public void Where_a_run_ends_nobody_knows_what_follows() => Desk.IsSilent("meter-run-short", Desk.Drawing("""
        {go: north, by: 500, to: in-line item, what: flow meter, face to face: 200, mass: 40}
        {go: north, by: 500, to: flange}
        """));

    [Theory]
    [InlineData("expansion joint", "", "note")]
    [InlineData("tied expansion joint", "", "")]
    [InlineData("rubber bellows", "", "note")]
    [InlineData("rubber bellows", "{go: north, by: 900, to: support, kind: anchor, height: 200, attach: welded, mass: 10}", "")]
    [InlineData("rubber bellows", "{go: north, by: 900, to: support, kind: guide, height: 200, mass: 10}", "note")]
    [InlineData("strainer", "", "")]
    public void Something_holds_a_bellows(string what, string support, string told) => Desk.Tells("expansion-joint-unanchored", told, Desk.Drawing($$"""
        {go: north, by: 900, to: in-line item, what: {{what}}, face to face: 200, mass: 20}
        {{support}}
        {go: north, by: 900, to: flange}
        """));
}
