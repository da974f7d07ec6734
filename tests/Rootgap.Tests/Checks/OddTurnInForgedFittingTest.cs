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
}
