namespace Rootgap.Tests.Checks;

public class DrawingHoldTest
{
    private const string Rule = "drawing-hold";

    [Fact]
    public void A_leg_on_hold_is_found() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow, note: dimension on hold}
        {go: north, by: 3200, to: flange}
        """), "hold");

    [Fact]
    public void A_figure_still_to_be_confirmed_is_found() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow, note: TBC by vendor}
        {go: north, by: 3200, to: flange}
        """), "tbc");

    [Fact]
    public void A_hold_point_is_an_inspection() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow, note: HOLD POINT fit-up}
        {go: north, by: 3200, to: flange}
        """));

    [Fact]
    public void Hold_as_an_ordinary_word_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow, note: supports hold this leg}
        {go: north, by: 3200, to: flange}
        """));
}
