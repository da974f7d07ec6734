namespace Rootgap.Tests.Checks;

public class TieInUnverifiedTest
{
    private const string Rule = "tie-in-unverified";

    [Fact]
    public void A_weld_to_an_existing_pipe_is_found() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: weld}
        """), "stands already");

    [Fact]
    public void A_weld_to_a_neighbour_drawing_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: weld, continues: TEST-2}
        """));
}
