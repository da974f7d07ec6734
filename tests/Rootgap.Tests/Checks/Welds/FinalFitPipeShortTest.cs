namespace Rootgap.Tests.Checks;

public class FinalFitPipeShortTest
{
    private const string Rule = "final-fit-pipe-short";

    // ASME B16.9: 2 x 229 of take-off; 584.4 leaves 584.4 - 458 - 6.4 = 120.
    [Fact]
    public void A_final_fit_pipe_of_120_where_100_is_the_shortest_is_found() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: up, by: 1500, to: elbow}
        {go: north, by: 584.4, to: elbow, end: final-fit}
        {go: up, by: 1000, to: flange}
        """), "is 120 as fitted", "20 shorter");

    [Fact]
    public void A_final_fit_pipe_with_50_to_spare_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1500, to: elbow}
        {go: north, by: 614.4, to: elbow, end: final-fit}
        {go: up, by: 1000, to: flange}
        """));

    [Fact]
    public void A_short_pipe_whose_weld_is_not_final_fit_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1500, to: elbow}
        {go: north, by: 584.4, to: elbow, end: field}
        {go: up, by: 1000, to: flange}
        """));
}
