namespace Rootgap.Tests.Checks;

public class MassUnknownTest
{
    private const string Rule = "mass-unknown";

    [Fact]
    public void A_valve_of_which_no_table_has_the_mass_is_noted() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: north, by: 1000, to: valve, kind: butterfly}
        {go: north, by: 1000, to: flange}
        """), "valve butterfly");

    [Fact]
    public void A_valve_with_its_mass_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 1000, to: valve, kind: butterfly, mass: 14}
        {go: north, by: 1000, to: flange}
        """));
}
