namespace Rootgap.Tests.Checks;

public class OddTurnInForgedFittingTest
{
    private const string Rule = "odd-turn-in-forged-fitting";

    // ASME B16.11 has 90 and 45 only.
    [Fact]
    public void A_socket_weld_elbow_of_30_degrees_is_found() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: north, by: 1450, to: elbow}
        {go: {north: 866.0254, east: 500}, to: flange}
        """, line: "size: 2, schedule: 80, class: 150, ends: socket"), "30");

    [Fact]
    public void A_socket_weld_elbow_of_45_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 1450, to: elbow}
        {go: {north: 1000, east: 1000}, to: flange}
        """, line: "size: 2, schedule: 80, class: 150, ends: socket"));

    [Fact]
    public void A_butt_weld_elbow_of_30_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 1450, to: elbow}
        {go: {north: 866.0254, east: 500}, to: flange}
        """));

    [Fact]
    public void A_socket_weld_elbow_from_a_drop_into_a_falling_line_is_no_more_than_a_note() =>
        Assert.Equal(Rootgap.Findings.Severity.Note, Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: down, by: 1450, to: elbow}
        {go: north, by: 3000, fall: 1:100, to: flange}
        """, line: "size: 2, schedule: 80, class: 150, ends: socket")).Severity);

    // Geometry: arctan(1/25) = 2.29 degrees more than 45 and less than 90: the stock elbow beside it is set.
    [Theory]
    [InlineData("{go: north, by: 1450, fall: 1:25, to: elbow}", "{north: 1000, up: 1000}", "the forged elbow turns 45")]
    [InlineData("{go: north, by: 1450, fall: 1:25, to: elbow}", "down", "the forged elbow turns 90")]
    public void A_slope_takes_the_nearer_stock_elbow(string leg, string go, string says) => Desk.Finds(Rule, "runs[0].legs[0]",
        Desk.Drawing($"{leg}\n{{go: {go}, by: {(go == "down" ? "1500" : "1414.2")}, to: flange}}", line: "size: 2, schedule: 80, class: 150, ends: socket"), says);
}
