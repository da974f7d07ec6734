namespace Rootgap.Tests.Checks;

public class PipeItemWithoutPipeTest
{
    private const string Rule = "pipe-item-without-pipe";

    private static string Drawing(string second) => Desk.Drawing($$"""
        {go: east, by: 1500, to: elbow, pipe item: 1}
        {{second}}
        {go: up, by: 1200, to: flange, pipe item: 1}
        """, more: """
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 40, quantity: 6 m}
          - {item: 2, what: elbow 90 LR, size: 6, schedule: 40, quantity: 2}
          - {item: 3, what: flange WN RF, size: 6, class: 150, bore: 40, quantity: 2}
        """);

    [Fact]
    public void A_pipe_item_where_fitting_stands_on_fitting_is_found() => Desk.Finds(Rule, "runs[0].legs[1]", Drawing("{go: north, by: makeup, to: elbow, pipe item: 1}"), "no pipe of its own");

    [Fact]
    public void A_leg_with_pipe_is_silent() => Desk.IsSilent(Rule, Drawing("{go: north, by: 900, to: elbow, pipe item: 1}"));
}
