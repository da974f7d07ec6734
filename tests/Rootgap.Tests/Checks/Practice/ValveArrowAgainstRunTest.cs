namespace Rootgap.Tests.Checks;

public class ValveArrowAgainstRunTest
{
    private const string Rule = "valve-arrow-against-run";

    [Fact]
    public void A_check_valve_in_a_run_written_against_its_flow_is_noted() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: north, by: 2000, to: valve, kind: check}
        {go: north, by: 1000, to: flange}
        """).Replace("- run: main", "- run: main\n    flow: against", StringComparison.Ordinal), "check valve");

    [Fact]
    public void A_check_valve_in_a_run_written_along_its_flow_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 2000, to: valve, kind: check}
        {go: north, by: 1000, to: flange}
        """).Replace("- run: main", "- run: main\n    flow: along", StringComparison.Ordinal));

    [Fact]
    public void A_gate_valve_has_no_arrow_and_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 2000, to: valve, kind: gate}
        {go: north, by: 1000, to: flange}
        """).Replace("- run: main", "- run: main\n    flow: against", StringComparison.Ordinal));
}
