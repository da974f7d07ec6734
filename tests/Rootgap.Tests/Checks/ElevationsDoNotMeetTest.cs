namespace Rootgap.Tests.Checks;

public class ElevationsDoNotMeetTest
{
    private const string Rule = "elevations-do-not-meet";

    [Fact]
    public void Two_flanges_of_different_elevation_are_found() => Desk.Finds(Rule, "runs[1].start", """
        drawing: TEST-1
        revision: 1
        line: {size: 6, schedule: 40, class: 150}
        runs:
          - run: one
            start: {to: flange}
            legs:
              - {go: north, by: 2000, to: flange}
          - run: two
            start: {to: flange, at: {north: 2003.2, up: 25}}
            legs:
              - {go: north, by: 2000, to: flange}
        """, "25 higher");

    [Fact]
    public void Two_flanges_of_one_elevation_are_silent() => Desk.IsSilent(Rule, """
        drawing: TEST-1
        revision: 1
        line: {size: 6, schedule: 40, class: 150}
        runs:
          - run: one
            start: {to: flange}
            legs:
              - {go: north, by: 2000, to: flange}
          - run: two
            start: {to: flange, at: {north: 2003.2, up: 0.5}}
            legs:
              - {go: north, by: 2000, to: flange}
        """);

    [Fact]
    public void Ends_far_apart_in_elevation_have_nothing_to_do_with_each_other() => Desk.IsSilent(Rule, """
        drawing: TEST-1
        revision: 1
        line: {size: 6, schedule: 40, class: 150}
        runs:
          - run: one
            start: {to: flange}
            legs:
              - {go: north, by: 2000, to: flange}
          - run: two
            start: {to: flange, at: {north: 2003.2, up: 300}}
            legs:
              - {go: north, by: 2000, to: flange}
        """);
}
