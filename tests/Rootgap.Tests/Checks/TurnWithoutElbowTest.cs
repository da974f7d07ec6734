namespace Rootgap.Tests.Checks;

public class TurnWithoutElbowTest
{
    private const string Rule = "turn-without-elbow";

    [Fact]
    public void A_turn_at_a_weld_is_found() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: north, by: 1500, to: weld}
        {go: east, by: 1500, to: flange}
        """), "90");

    [Fact]
    public void A_weld_in_a_straight_line_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 1500, to: weld}
        {go: north, by: 1500, to: flange}
        """));
}
