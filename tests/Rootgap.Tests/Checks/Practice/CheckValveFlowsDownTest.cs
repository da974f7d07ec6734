namespace Rootgap.Tests.Checks;

public class CheckValveFlowsDownTest
{
    private const string Rule = "check-valve-flows-down";

    // common practice
    [Fact]
    public void A_check_valve_in_downward_flow_is_found() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: down, by: 2000, to: valve, kind: check}
        {go: down, by: 1000, to: flange}
        """).Replace("- run: main", "- run: main\n    flow: along", StringComparison.Ordinal), "goes down");

    [Fact]
    public void Flow_against_a_rising_run_is_downward_too() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: up, by: 2000, to: valve, kind: check}
        {go: up, by: 1000, to: flange}
        """).Replace("- run: main", "- run: main\n    flow: against", StringComparison.Ordinal), "goes down");

    [Fact]
    public void Upward_flow_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 2000, to: valve, kind: check}
        {go: up, by: 1000, to: flange}
        """).Replace("- run: main", "- run: main\n    flow: along", StringComparison.Ordinal));

    [Fact]
    public void Level_flow_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 2000, to: valve, kind: check}
        {go: north, by: 1000, to: flange}
        """).Replace("- run: main", "- run: main\n    flow: along", StringComparison.Ordinal));

    [Fact]
    public void Unknown_flow_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: down, by: 2000, to: valve, kind: check}
        {go: down, by: 1000, to: flange}
        """));
}
