namespace Rootgap.Tests.Checks;

public class BranchAlongHeaderTest
{
    private const string Rule = "branch-along-header";

    [Fact]
    public void A_branch_along_its_header_is_found() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: north, by: 1500, to: outlet, size: 2, branch: north}
        {go: north, by: 1500, to: flange}
        """), "header");

    [Fact]
    public void A_branch_back_along_its_header_is_found() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: north, by: 1500, to: tee, branch: south}
        {go: north, by: 1500, to: flange}
        """), "header");

    [Fact]
    public void A_branch_to_the_side_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 1500, to: outlet, size: 2, branch: west}
        {go: north, by: 1500, to: flange}
        """));
}
