namespace Rootgap.Tests.Checks;

public class BranchNearWeldTest
{
    private const string Rule = "branch-near-weld";

    // ASME B16.9: the elbow ends at 229, the weld's middle is at 230.6; NPS 2 is 60.3 outside (ASME B36.10M).
    [Fact]
    public void An_outlet_on_the_elbows_weld_is_found() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 240, to: outlet, name: O1, branch: up, size: 2}
        {go: north, by: 1000, to: flange}
        """), "stands on a girth weld", "60.3 wide");

    [Fact]
    public void An_outlet_30_from_the_weld_is_noted() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 290.75, to: outlet, name: O1, branch: up, size: 2}
        {go: north, by: 1000, to: flange}
        """), "is 30 from");

    [Fact]
    public void An_outlet_50_from_the_weld_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 310.8, to: outlet, name: O1, branch: up, size: 2}
        {go: north, by: 1000, to: flange}
        """));
}
