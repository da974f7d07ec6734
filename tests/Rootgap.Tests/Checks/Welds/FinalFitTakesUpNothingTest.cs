namespace Rootgap.Tests.Checks;

public class FinalFitTakesUpNothingTest
{
    private const string Rule = "final-fit-takes-up-nothing";

    [Fact]
    public void A_final_fit_weld_before_a_capped_end_is_found() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: up, by: 1500, to: elbow, end: final-fit}
        {go: north, by: 1500, to: cap}
        """), "W2");

    [Fact]
    public void A_final_fit_weld_between_two_flanges_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1500, to: elbow, end: final-fit}
        {go: north, by: 1500, to: flange}
        """));

    [Fact]
    public void A_final_fit_weld_to_an_existing_pipe_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1500, to: elbow}
        {go: north, by: 1500, to: weld, end: final-fit}
        """));
}
