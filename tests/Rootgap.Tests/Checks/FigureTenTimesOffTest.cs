namespace Rootgap.Tests.Checks;

public class FigureTenTimesOffTest
{
    private const string Rule = "figure-ten-times-off";

    [Fact]
    public void More_pipe_than_listed_because_of_one_figure_is_found() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: up, by: 11000, to: elbow}
        {go: north, by: 2600, to: elbow}
        {go: east, by: 1800, to: elbow}
        {go: north, by: 2200, to: elbow}
        {go: up, by: 1300, to: flange}
        """, more: """
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 40, quantity: 9 m}
        """), "1100", "9.00 m", "ten times");

    [Fact]
    public void A_figure_that_stands_out_among_the_others_is_noted() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: up, by: 14500, to: elbow}
        {go: north, by: 2600, to: elbow}
        {go: east, by: 1800, to: elbow}
        {go: north, by: 2200, to: elbow}
        {go: up, by: 1300, to: flange}
        """), "14500", "1450");

    [Fact]
    public void Enough_pipe_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 2600, to: elbow}
        {go: east, by: 1800, to: elbow}
        {go: north, by: 2200, to: elbow}
        {go: up, by: 1300, to: flange}
        """, more: """
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 40, quantity: 9 m}
        """));

    [Fact]
    public void A_list_that_is_short_in_another_way_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 2600, to: elbow}
        {go: east, by: 1800, to: elbow}
        {go: north, by: 2200, to: elbow}
        {go: up, by: 1300, to: flange}
        """, more: """
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 40, quantity: 5 m}
        """));
}
