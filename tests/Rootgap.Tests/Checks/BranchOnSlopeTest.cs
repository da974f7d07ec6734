namespace Rootgap.Tests.Checks;

public class BranchOnSlopeTest
{
    private const string Rule = "branch-on-slope";

    [Fact]
    public void An_upright_branch_on_a_sloped_run_is_found() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: north, by: 1500, fall: 1:100, to: outlet, size: 2, branch: up}
        {go: north, by: 1500, fall: 1:100, to: flange}
        """), "0.57");

    [Fact]
    public void A_branch_to_the_side_of_a_sloped_run_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 1500, fall: 1:100, to: outlet, size: 2, branch: east}
        {go: north, by: 1500, fall: 1:100, to: flange}
        """));
}
