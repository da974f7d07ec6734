namespace Rootgap.Tests.Checks;

public class FinalFitWithoutPipeTest
{
    private const string Rule = "final-fit-without-pipe";

    [Fact]
    public void A_final_fit_weld_between_two_fittings_is_found() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: up, by: 1500, to: elbow}
        {go: north, by: makeup, to: elbow, end: final-fit}
        {go: up, by: 800, to: flange}
        """), "final-fit");

    [Fact]
    public void A_field_weld_between_two_fittings_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1500, to: elbow}
        {go: north, by: makeup, to: elbow, end: field}
        {go: up, by: 800, to: flange}
        """));
}
