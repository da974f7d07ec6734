namespace Rootgap.Tests.Checks;

public class SlopeAgainstFlowTest
{
    private const string Rule = "slope-against-flow";

    [Fact]
    public void A_leg_that_rises_with_the_flow_is_found() => Desk.Finds(Rule, "runs[0].legs[0]", """
        drawing: TEST-1
        revision: 1
        line: {size: 6, schedule: 40, class: 150}
        runs:
          - run: main
            flow: along
            start: {to: flange}
            legs:
              - {go: north, by: 3000, rise: 1:100, to: flange}
        """, "rises 1 in 100");

    [Fact]
    public void A_leg_that_falls_against_the_flow_is_found() => Desk.Finds(Rule, "runs[0].legs[0]", """
        drawing: TEST-1
        revision: 1
        line: {size: 6, schedule: 40, class: 150}
        runs:
          - run: main
            flow: against
            start: {to: flange}
            legs:
              - {go: north, by: 3000, fall: 1:100, to: flange}
        """, "falls 1 in 100");

    [Fact]
    public void A_leg_that_falls_with_the_flow_is_silent() => Desk.IsSilent(Rule, """
        drawing: TEST-1
        revision: 1
        line: {size: 6, schedule: 40, class: 150}
        runs:
          - run: main
            flow: along
            start: {to: flange}
            legs:
              - {go: north, by: 3000, fall: 1:100, to: flange}
        """);

    [Fact]
    public void A_slope_without_a_flow_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 3000, rise: 1:100, to: flange}
        """));
}
