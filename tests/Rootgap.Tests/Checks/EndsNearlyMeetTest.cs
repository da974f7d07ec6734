namespace Rootgap.Tests.Checks;

public class EndsNearlyMeetTest
{
    private const string Rule = "ends-nearly-meet";

    [Fact]
    public void Two_flanges_that_miss_each_other_sideways_are_found() => Desk.Finds(Rule, "runs[1].start", """
        drawing: TEST-1
        revision: 1
        line: {size: 6, schedule: 40, class: 150}
        runs:
          - run: one
            start: {to: flange}
            legs:
              - {go: north, by: 2000, to: flange}
          - run: two
            start: {to: flange, at: {east: 12, north: 2003.2}}
            legs:
              - {go: north, by: 2000, to: flange}
        """, "12 east");

    [Fact]
    public void Two_open_ends_that_overlap_are_found() => Desk.Finds(Rule, "runs[1].start", """
        drawing: TEST-1
        revision: 1
        line: {size: 6, schedule: 40, class: 150}
        runs:
          - run: one
            start: {to: flange}
            legs:
              - {go: north, by: 2000, to: open}
          - run: two
            start: {to: open, at: {north: 1960}}
            legs:
              - {go: north, by: 2000, to: flange}
        """, "40 south");

    [Fact]
    public void Two_flanges_with_a_gasket_between_are_silent() => Desk.IsSilent(Rule, """
        drawing: TEST-1
        revision: 1
        line: {size: 6, schedule: 40, class: 150}
        runs:
          - run: one
            start: {to: flange}
            legs:
              - {go: north, by: 2000, to: flange}
          - run: two
            start: {to: flange, at: {north: 2003.2}}
            legs:
              - {go: north, by: 2000, to: flange}
        """);

    [Fact]
    public void Two_ends_side_by_side_that_look_the_same_way_are_silent() => Desk.IsSilent(Rule, """
        drawing: TEST-1
        revision: 1
        line: {size: 6, schedule: 40, class: 150}
        runs:
          - run: one
            start: {to: flange}
            legs:
              - {go: north, by: 2000, to: elbow}
              - {go: up, by: 900, to: flange}
          - run: two
            start: {to: flange, at: {east: 90, north: 4000}}
            legs:
              - {go: south, by: 1990, to: open}
        """);

    [Fact]
    public void A_clear_space_on_one_axis_is_no_more_than_a_note() => Desk.IsSilent(Rule, """
        drawing: TEST-1
        revision: 1
        line: {size: 6, schedule: 40, class: 150}
        runs:
          - run: one
            start: {to: flange}
            legs:
              - {go: north, by: 2000, to: flange}
          - run: two
            start: {to: flange, at: {north: 2200}}
            legs:
              - {go: north, by: 2000, to: flange}
        """);

    [Fact]
    public void Another_elevation_alone_is_told_by_its_own_rule() => Desk.IsSilent(Rule, """
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
        """);
}
