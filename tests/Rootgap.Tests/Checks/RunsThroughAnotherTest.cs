namespace Rootgap.Tests.Checks;

public class RunsThroughAnotherTest
{
    private const string Rule = "runs-through-another";

    // ASME B36.10M: NPS 6 is 168.3 mm over, so two middles need 168.3.
    [Fact]
    public void A_pipe_that_crosses_another_is_found() => Desk.Finds(Rule, "runs[1].legs[0]", """
        drawing: TEST-1
        revision: 1
        line: {size: 6, schedule: 40, class: 150}
        runs:
          - run: one
            start: {to: flange}
            legs:
              - {go: north, by: 4000, to: flange}
          - run: two
            start: {to: open, at: {east: -2000, north: 2000, up: 100}}
            legs:
              - {go: east, by: 4000, to: open}
        """, "100 apart", "168");

    // ASME B16.5: NPS 6 class 150 flange 280 mm over; 140 + 84.15 = 224 needed.
    [Fact]
    public void A_pipe_through_the_rim_of_a_flange_is_found() => Desk.Finds(Rule, "runs[1].legs[0]", """
        drawing: TEST-1
        revision: 1
        line: {size: 6, schedule: 40, class: 150}
        runs:
          - run: one
            start: {to: flange}
            legs:
              - {go: north, by: 4000, to: flange}
          - run: two
            start: {to: open, at: {east: 200, north: -2000}}
            legs:
              - {go: north, by: 8000, to: open}
        """, "200 apart");

    // Side by side they share 1000 of 4000 and of 8000 mm: neither's middle lies beside the other.
    [Fact]
    public void Pipes_that_share_a_short_stretch_side_by_side_are_found() => Desk.Finds(Rule, "runs[1].legs[0]", """
        drawing: TEST-1
        revision: 1
        line: {size: 6, schedule: 40, class: 150}
        runs:
          - run: one
            start: {to: flange}
            legs:
              - {go: north, by: 4000, to: open}
          - run: two
            start: {to: open, at: {east: 50, north: 3000}}
            legs:
              - {go: north, by: 8000, to: open}
        """, "50 apart");

    [Fact]
    public void A_pipe_that_just_passes_over_another_is_silent() => Desk.IsSilent(Rule, """
        drawing: TEST-1
        revision: 1
        line: {size: 6, schedule: 40, class: 150}
        runs:
          - run: one
            start: {to: flange}
            legs:
              - {go: north, by: 4000, to: flange}
          - run: two
            start: {to: open, at: {east: -2000, north: 2000, up: 170}}
            legs:
              - {go: east, by: 4000, to: open}
        """);

    [Fact]
    public void A_pipe_that_just_passes_a_flange_is_silent() => Desk.IsSilent(Rule, """
        drawing: TEST-1
        revision: 1
        line: {size: 6, schedule: 40, class: 150}
        runs:
          - run: one
            start: {to: flange}
            legs:
              - {go: north, by: 4000, to: flange}
          - run: two
            start: {to: open, at: {east: 226, north: -2000}}
            legs:
              - {go: north, by: 8000, to: open}
        """);

    [Fact]
    public void A_branch_and_its_header_belong_together() => Desk.IsSilent(Rule, """
        drawing: TEST-1
        revision: 1
        line: {size: 6, schedule: 40, class: 150}
        runs:
          - run: one
            start: {to: flange}
            legs:
              - {go: north, by: 2000, to: stub-in, name: S, size: 4, branch: east}
              - {go: north, by: 700, to: outlet, name: O, size: 2, branch: up}
              - {go: north, by: 1000, to: elbow}
              - {go: {up: 1000, north: 1000}, to: elbow}
              - {go: north, by: 1000, to: tee, name: T, branch: east}
              - {go: north, by: 1000, to: joint}
              - {go: north, by: 1000, to: valve, kind: gate}
              - {go: north, by: 1000, to: reducer, size: 4, kind: eccentric, flat: bottom}
              - {go: north, by: 300, to: cap}
          - run: s
            start: {from: S}
            legs:
              - {go: east, by: 900, to: flange}
          - run: o
            start: {from: O}
            legs:
              - {go: up, by: 400, to: elbow}
              - {go: west, by: 600, to: flange}
          - run: t
            start: {from: T}
            legs:
              - {go: east, by: 900, to: elbow}
              - {go: down, by: makeup, to: elbow}
              - {go: east, by: 900, to: flange}
        """);

    [Fact]
    public void Two_flanges_face_to_face_are_silent() => Desk.IsSilent(Rule, """
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
}
