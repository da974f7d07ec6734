namespace Rootgap.Tests.Checks;

public class SlopeChangesSignTest
{
    private const string Rule = "slope-changes-sign";

    [Fact]
    public void A_fall_before_a_rise_is_found() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: north, by: 3000, fall: 1:100, to: elbow}
        {go: east, by: 3000, rise: 1:100, to: flange}
        """), "pocket");

    [Fact]
    public void A_fall_before_a_fall_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 3000, fall: 1:100, to: elbow}
        {go: east, by: 3000, fall: 1:100, to: flange}
        """));

    [Fact]
    public void A_rise_after_a_drop_is_another_stretch() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 3000, fall: 1:100, to: elbow}
        {go: down, by: 900, to: elbow}
        {go: east, by: 3000, rise: 1:100, to: flange}
        """));
}
