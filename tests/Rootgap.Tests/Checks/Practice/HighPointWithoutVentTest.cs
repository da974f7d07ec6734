namespace Rootgap.Tests.Checks;

public class HighPointWithoutVentTest
{
    private const string Rule = "high-point-without-vent";

    [Fact]
    public void A_hump_without_a_vent_is_noted() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: north, by: 2000, to: elbow}
        {go: up, by: 2000, to: elbow}
        {go: north, by: 2000, to: elbow}
        {go: down, by: 2000, to: elbow}
        {go: north, by: 2000, to: flange}
        """), "no vent");

    [Theory]
    [InlineData("1", "instrument air", "")]
    [InlineData("1", "water", "note")]
    [InlineData("4", "instrument air", "note")]
    public void Small_bore_that_carries_a_gas_is_silent(string size, string fluid, string severity) => Desk.Tells(Rule, severity, Desk.Drawing("""
        {go: up, by: 500, to: elbow}
        {go: north, by: 800, to: elbow}
        {go: down, by: 2000, to: open}
        """, $"service: {{fluid: {fluid}}}", $"size: {size}, schedule: 80, class: 150", "to: open"));

    [Fact]
    public void A_hump_with_an_outlet_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 2000, to: elbow}
        {go: up, by: 2000, to: elbow}
        {go: north, by: 1000, to: outlet, name: D1, branch: up, size: 1}
        {go: north, by: 1000, to: elbow}
        {go: down, by: 2000, to: elbow}
        {go: north, by: 2000, to: flange}
        """));

    [Fact]
    public void A_dip_is_no_hump_and_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 2000, to: elbow}
        {go: down, by: 2000, to: elbow}
        {go: north, by: 2000, to: elbow}
        {go: up, by: 2000, to: elbow}
        {go: north, by: 2000, to: flange}
        """));
}
