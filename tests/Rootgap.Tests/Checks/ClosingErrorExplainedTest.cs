namespace Rootgap.Tests.Checks;

public class ClosingErrorExplainedTest
{
    private const string Rule = "closing-error-explained";

    [Fact]
    public void Two_digits_changed_over_are_found_at_their_leg() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 2690, to: elbow}
        {go: east, by: 1700, to: elbow}
        {go: up, by: 900, to: flange, at: {east: 1700, north: 2960, up: 2350}}
        """), "2960", "2690", "digits");

    [Fact]
    public void A_leg_turned_round_is_found() => Desk.Finds(Rule, "runs[0].legs[2]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 2690, to: elbow}
        {go: east, by: 1700, to: elbow}
        {go: up, by: 900, to: flange, at: {east: -1700, north: 2690, up: 2350}}
        """), "west");

    [Fact]
    public void A_figure_ten_times_off_is_found() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 690, to: elbow}
        {go: east, by: 1700, to: elbow}
        {go: up, by: 900, to: flange, at: {east: 1700, north: 6900, up: 2350}}
        """), "6900", "ten times");

    [Fact]
    public void Legs_that_close_are_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 2690, to: elbow}
        {go: east, by: 1700, to: elbow}
        {go: up, by: 900, to: flange, at: {east: 1700, north: 2690, up: 2350}}
        """));
}
