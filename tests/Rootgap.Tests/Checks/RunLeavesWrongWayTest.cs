namespace Rootgap.Tests.Checks;

public class RunLeavesWrongWayTest
{
    private const string Rule = "run-leaves-wrong-way";

    [Fact]
    public void A_run_that_leaves_a_tee_another_way_than_its_branch_points_is_found() => Desk.Finds(Rule, "runs[1].legs[0]", """
        drawing: TEST-1
        revision: 1
        line: {size: 6, schedule: 40, class: 150}
        runs:
          - run: main
            start: {to: flange}
            legs:
              - {go: north, by: 1500, to: tee, name: T1, branch: up}
              - {go: north, by: 1500, to: flange}
          - run: side
            start: {from: T1}
            legs:
              - {go: down, by: 1000, to: flange}
        """, "T1", "180");

    [Fact]
    public void A_run_that_leaves_the_way_the_branch_points_is_silent() => Desk.IsSilent(Rule, """
        drawing: TEST-1
        revision: 1
        line: {size: 6, schedule: 40, class: 150}
        runs:
          - run: main
            start: {to: flange}
            legs:
              - {go: north, by: 1500, to: tee, name: T1, branch: up}
              - {go: north, by: 1500, to: flange}
          - run: side
            start: {from: T1}
            legs:
              - {go: up, by: 1000, to: flange}
        """);

    [Fact]
    public void A_run_that_leaves_on_a_slope_is_told_as_a_slope() => Desk.IsSilent(Rule, """
        drawing: TEST-1
        revision: 1
        line: {size: 6, schedule: 40, class: 150}
        runs:
          - run: main
            start: {to: flange}
            legs:
              - {go: north, by: 1500, to: tee, name: T1, branch: east}
              - {go: north, by: 1500, to: flange}
          - run: side
            start: {from: T1}
            legs:
              - {go: east, rise: 1:50, by: 1000, to: flange}
        """);
}
