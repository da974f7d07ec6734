namespace Rootgap.Tests.Checks;

public class HolesOnCentreTest
{
    private const string Rule = "holes-on-centre";

    [Fact]
    public void Holes_on_the_centreline_are_noted() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: north, by: 1450, to: flange, holes: on-centre}
        """), "centreline");

    [Fact]
    public void Holes_astride_are_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 1450, to: flange, holes: straddle}
        """));
}
