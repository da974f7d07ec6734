namespace Rootgap.Tests.Checks;

public class ValveLengthFromTableTest
{
    private const string Rule = "valve-length-from-table";

    [Fact]
    public void A_valve_without_its_makers_length_is_noted() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: north, by: 1450, to: valve, kind: gate, stem: up}
        {go: north, by: 3200, to: flange}
        """), "gate");

    [Fact]
    public void A_valve_with_its_makers_length_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 1450, to: valve, kind: gate, face to face: 270}
        {go: north, by: 3200, to: flange}
        """));
}
