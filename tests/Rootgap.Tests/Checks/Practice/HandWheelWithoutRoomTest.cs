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

    // Three sizes and a hand's room of 100 (the rule's own words): 3 x 101.6 + 100 = 404.8, and half of NPS 4, 57.15 (ASME B36.10): 462.
    [Theory]
    [InlineData(458, true)]
    [InlineData(466, false)]
    public void It_is_found_as_far_as_the_wheel_reaches(int above, bool isFound)
    {
        if (isFound)
            Desk.Finds(Rule, "runs[0].legs[0]", Drawing(above), "runs into pipe");
        else
            Desk.IsSilent(Rule, Drawing(above));
    }

    [Fact]
    public void A_pipe_well_above_is_silent() => Desk.IsSilent(Rule, Drawing(900));
}
