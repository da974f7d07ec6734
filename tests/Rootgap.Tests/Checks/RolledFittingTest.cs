namespace Rootgap.Tests.Checks;

public class RolledFittingTest
{
    private const string Rule = "rolled-fitting";

    [Fact]
    public void An_elbow_rolled_halfway_between_level_and_upright_is_found() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: north, by: 1450, to: elbow}
        {go: {east: 1000, up: 1000}, to: flange}
        """), "45");

    [Fact]
    public void An_elbow_turned_level_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 1450, to: elbow}
        {go: east, by: 1000, to: flange}
        """));

    [Fact]
    public void An_elbow_of_45_in_the_upright_plane_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 1450, to: elbow}
        {go: {north: 1000, up: 1000}, to: flange}
        """));
}
