namespace Rootgap.Tests.Checks;

public class OpenBranchTest
{
    private const string Rule = "open-branch";

    // common practice
    [Fact]
    public void A_tee_on_whose_branch_nothing_is_drawn_is_found() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: east, by: 1500, to: tee, name: A, branch: up}
        {go: east, by: 900, to: flange}
        """), "tee");

    [Fact]
    public void A_branch_that_a_run_starts_from_or_ties_into_is_silent() => Desk.IsSilent(Rule, """
        drawing: TEST-1
        revision: 1
        line: {size: 6, schedule: 40, class: 150}
        runs:
          - run: main
            start: {to: flange}
            legs:
              - {go: east, by: 1500, to: tee, name: A, branch: up}
              - {go: east, by: 1500, to: stub-in, name: B, branch: up, size: 3}
              - {go: east, by: 900, to: flange}
          - {run: riser, start: {from: A}, legs: [{go: up, by: 900, to: flange}]}
          - run: feed
            size: 3
            start: {to: flange, at: {east: 3000, north: 0, up: 1000}}
            legs:
              - {go: down, by: 1000, to: tie-in, with: B}
        """);
}
