namespace Rootgap.Tests.Checks;

public class HandWheelWithoutRoomTest
{
    private const string Rule = "hand-wheel-without-room";

    private static string Drawing(int above) => $$"""
        drawing: TEST-1
        revision: 1
        line: {size: 4, schedule: 40, class: 150}
        runs:
          - run: main
            start: {to: flange}
            legs:
              - {go: east, by: 1500, to: valve, kind: gate, stem: up}
              - {go: east, by: 1500, to: flange}
          - run: over
            start: { to: flange, at: { east: 1500, north: -1000, up: {{above}} } }
            legs: [{go: north, by: 2000, to: flange}]
        """;

    // common practice: a rising stem of NPS 4 stands some 400 mm over the line
    [Fact]
    public void A_pipe_over_the_wheel_is_found() => Desk.Finds(Rule, "runs[0].legs[0]", Drawing(350), "runs into pipe");

    [Fact]
    public void A_pipe_well_above_is_silent() => Desk.IsSilent(Rule, Drawing(900));
}
