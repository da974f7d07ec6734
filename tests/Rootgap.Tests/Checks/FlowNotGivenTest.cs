namespace Rootgap.Tests.Checks;

public class FlowNotGivenTest
{
    private const string Rule = "flow-not-given";

    [Fact]
    public void A_check_valve_in_a_run_without_a_flow_is_found() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: north, by: 1450, to: valve, kind: check}
        {go: north, by: 3200, to: flange}
        """), "check", "main");

    [Fact]
    public void A_check_valve_in_a_run_with_its_flow_is_silent() => Desk.IsSilent(Rule, """
        drawing: TEST-1
        revision: 1
        line: {size: 6, schedule: 40, class: 150}
        runs:
          - run: main
            flow: along
            start: {to: flange}
            legs:
              - {go: north, by: 1450, to: valve, kind: check}
              - {go: north, by: 3200, to: flange}
        """);

    [Fact]
    public void A_gate_valve_needs_no_flow() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 1450, to: valve, kind: gate}
        {go: north, by: 3200, to: flange}
        """));
}
