namespace Rootgap.Tests.Checks;

public class TurnsBackOnItselfTest
{
    private const string Rule = "turns-back-on-itself";

    [Fact]
    public void A_leg_that_goes_back_along_the_one_before_is_found() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: north, by: 1450, to: elbow}
        {go: south, by: 1000, to: flange}
        """), "back");

    // No elbow turns so far: what its take-off would be is no second mistake.
    [Fact]
    public void What_follows_from_it_is_not_told_besides() => Desk.IsSilent("leg-too-short-for-fittings", Desk.Drawing("""
        {go: north, by: 1450, to: elbow}
        {go: south, by: 1000, to: flange}
        """));

    [Fact]
    public void A_leg_that_goes_back_from_a_valve_is_found() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: north, by: 1450, to: valve, kind: gate}
        {go: south, by: 1000, to: flange}
        """), "back");

    [Fact]
    public void A_turn_of_135_is_another_matter() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 1450, to: elbow}
        {go: {south: 1000, east: 1000}, to: flange}
        """));
}
