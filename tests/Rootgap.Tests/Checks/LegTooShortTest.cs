namespace Rootgap.Tests.Checks;

public class LegTooShortTest
{
    private const string Rule = "leg-too-short-for-fittings";

    // ASME B16.9: NPS 6 long-radius elbow 229 mm; two and a gap of 3.2 need 461.2.
    [Fact]
    public void Two_elbows_that_need_more_than_is_drawn_are_found() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 400, to: elbow}
        {go: up, by: 1000, to: flange}
        """), "461.2 needed", "400 drawn", "61.2 short");

    [Fact]
    public void A_leg_that_just_holds_its_fittings_and_a_pipe_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 600, to: elbow}
        {go: up, by: 1000, to: flange}
        """));
}
