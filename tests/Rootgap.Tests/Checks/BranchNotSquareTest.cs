namespace Rootgap.Tests.Checks;

public class BranchNotSquareTest
{
    private const string Rule = "branch-not-square";

    [Fact]
    public void A_branch_at_45_degrees_is_found() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: north, by: 1500, to: tee, branch: {north: 1, up: 1}}
        {go: north, by: 1500, to: flange}
        """), "45");

    [Fact]
    public void A_branch_square_to_its_run_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 1500, to: tee, branch: {east: 1, up: 1}}
        {go: north, by: 1500, to: flange}
        """));
}
