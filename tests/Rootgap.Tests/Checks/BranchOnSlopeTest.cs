namespace Rootgap.Tests.Checks;

public class BranchOnSlopeTest
{
    private const string Rule = "branch-on-slope";

    [Fact]
    public void An_upright_branch_on_a_sloped_run_is_found() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: north, by: 1500, fall: 1:100, to: outlet, size: 2, branch: up}
        {go: north, by: 1500, fall: 1:100, to: flange}
        """), "0.57");

    // atan(1/50) = 1.15 degrees
    [Fact]
    public void A_run_that_leaves_its_tee_on_a_slope_is_found() => Desk.Finds(Rule, "runs[1].legs[0]", """
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
        """, "1.15");

    [Fact]
    public void A_branch_to_the_side_of_a_sloped_run_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 1500, fall: 1:100, to: outlet, size: 2, branch: east}
        {go: north, by: 1500, fall: 1:100, to: flange}
        """));
}
