namespace Rootgap.Tests.Checks;

public class TestPressureLowTest
{
    private const string Rule = "test-pressure-low";

    // ASME B31.3 345.4.2 and 345.5.4
    [Fact]
    public void A_test_below_the_design_pressure_is_noted() => Desk.Finds(Rule, "service", Desk.Drawing("""
        {go: up, by: 1000, to: flange}
        """, more: """
        service: {design pressure: 10 bar, test pressure: 8 bar}
        """), "11 bar at least");

    [Fact]
    public void A_test_at_1_5_times_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1000, to: flange}
        """, more: """
        service: {design pressure: 10 bar, test pressure: 15 bar}
        """));

    [Fact]
    public void A_gas_test_at_1_1_times_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1000, to: flange}
        """, more: """
        service: {design pressure: 10 bar, test pressure: 11 bar}
        """));
}
