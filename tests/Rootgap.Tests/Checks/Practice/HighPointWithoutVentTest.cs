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
