namespace Rootgap.Tests.Checks;

public class WaferStudsTest
{
    private const string Rule = "wafer-studs";

    [Fact]
    public void A_wafer_butterfly_valve_is_noted() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: north, by: 1450, to: valve, kind: butterfly, stem: up}
        {go: north, by: 3200, to: flange}
        """), "studs");

    [Fact]
    public void A_gate_valve_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 1450, to: valve, kind: gate, stem: up}
        {go: north, by: 3200, to: flange}
        """));
}
