namespace Rootgap.Tests.Checks;

public class SmallBranchUnsupportedTest
{
    private const string Rule = "small-branch-unsupported";

    [Fact]
    public void A_valve_on_a_one_inch_branch_is_noted() => Desk.Finds(Rule, "runs[1].legs[0]", Desk.Drawing("""
        {go: north, by: 1000, to: outlet, name: O1, branch: up, size: 1}
        {go: north, by: 1000, to: flange}
        """) + """

              - run: vent
                start: {from: O1}
                legs:
                  - {go: up, by: 600, to: valve, kind: gate}
                  - {go: up, by: 600, to: flange}
            """, "NPS 1 branch");

    [Fact]
    public void A_valve_on_a_two_inch_branch_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 1000, to: outlet, name: O1, branch: up, size: 2}
        {go: north, by: 1000, to: flange}
        """) + """

              - run: vent
                start: {from: O1}
                legs:
                  - {go: up, by: 600, to: valve, kind: gate}
                  - {go: up, by: 600, to: flange}
            """);

    [Fact]
    public void A_small_branch_without_a_valve_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 1000, to: outlet, name: O1, branch: up, size: 1}
        {go: north, by: 1000, to: flange}
        """) + """

              - run: vent
                start: {from: O1}
                legs:
                  - {go: up, by: 600, to: joint}
                  - {go: up, by: 600, to: flange}
            """);
}
