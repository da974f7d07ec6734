namespace Rootgap.Tests.Checks;

public class TurnOver90Test
{
    private const string Rule = "turn-over-90";

    // Geometry: from north to south-east is 135 degrees.
    [Fact]
    public void A_turn_of_135_degrees_is_found() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: north, by: 1450, to: elbow}
        {go: {south: 1000, east: 1000}, to: flange}
        """), "135");

    [Fact]
    public void A_turn_of_just_90_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: flange}
        """));

    [Fact]
    public void A_riser_into_a_falling_line_is_no_more_than_a_note() =>
        Assert.Equal(Rootgap.Findings.Severity.Note, Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3000, fall: 1:100, to: flange}
        """)).Severity);
}
