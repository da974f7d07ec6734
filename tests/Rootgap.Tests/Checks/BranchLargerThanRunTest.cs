namespace Rootgap.Tests.Checks;

public class BranchLargerThanRunTest
{
    private const string Rule = "branch-larger-than-run";

    [Fact]
    public void An_outlet_larger_than_its_header_is_found() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: north, by: 1500, to: outlet, size: 8, branch: up}
        {go: north, by: 1500, to: flange}
        """), "NPS 8", "NPS 6");

    [Fact]
    public void A_tee_with_a_branch_larger_than_its_run_is_found() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: north, by: 1500, to: tee, branch size: 8, branch: up}
        {go: north, by: 1500, to: flange}
        """), "NPS 8", "NPS 6");

    [Fact]
    public void A_stub_in_as_large_as_its_header_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 1500, to: stub-in, size: 6, branch: up}
        {go: north, by: 1500, to: flange}
        """));
}
