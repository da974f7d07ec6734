namespace Rootgap.Tests.Checks;

public class LowPointWithoutDrainTest
{
    private const string Rule = "low-point-without-drain";

    [Fact]
    public void A_dip_without_a_drain_is_noted() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: north, by: 2000, to: elbow}
        {go: down, by: 2000, to: elbow}
        {go: north, by: 2000, to: elbow}
        {go: up, by: 2000, to: elbow}
        {go: north, by: 2000, to: flange}
        """), "no drain");

    [Fact]
    public void A_dip_with_an_outlet_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 2000, to: elbow}
        {go: down, by: 2000, to: elbow}
        {go: north, by: 1000, to: outlet, name: D1, branch: down, size: 1}
        {go: north, by: 1000, to: elbow}
        {go: up, by: 2000, to: elbow}
        {go: north, by: 2000, to: flange}
        """));

    [Fact]
    public void Two_steps_down_are_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 2000, to: elbow}
        {go: down, by: 2000, to: elbow}
        {go: north, by: 2000, to: elbow}
        {go: down, by: 2000, to: elbow}
        {go: north, by: 2000, to: flange}
        """));
}
