namespace Rootgap.Tests.Checks;

public class TerminalNotLocatedTest
{
    private const string Rule = "terminal-not-located";

    [Fact]
    public void An_end_flange_without_its_place_is_found() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: flange}
        """), "place");

    [Fact]
    public void An_end_with_its_place_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: flange, at: {north: 3200, up: 1450}}
        """));

    [Fact]
    public void A_cap_needs_no_place() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: cap}
        """));
}
