namespace Rootgap.Tests.Checks;

// ASME B16.9: a return's two ends look the same way, and lie side by side.
public class ReturnNotBackTest
{
    private const string Rule = "return-not-back";

    private static string Line(string across, string back) => Desk.Drawing($$"""
        {go: north, by: 2600, to: elbow}
        {go: {{across}}, by: return, to: elbow}
        {go: {{back}}, by: 1800, to: flange}
        """);

    [Theory]
    [InlineData("up", "north", "180")]
    [InlineData("up", "east", "90")]
    [InlineData("{north: 1, up: 1}", "south", "45")]
    public void A_line_that_does_not_come_straight_back_is_told(string across, string back, string word) => Desk.Finds(Rule, "runs[0].legs[0]", Line(across, back), word);

    [Theory]
    [InlineData("up", "south")]
    [InlineData("east", "south")]
    public void One_that_does_is_silent(string across, string back) => Desk.IsSilent(Rule, Line(across, back));
}
