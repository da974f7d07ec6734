namespace Rootgap.Tests.Checks;

public class NoFinalFitTest
{
    private const string Rule = "no-final-fit";

    [Fact]
    public void Two_flanges_with_shop_welds_between_are_found() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: up, by: 1500, to: elbow, end: shop}
        {go: north, by: 1500, to: flange}
        """), "nothing can be trimmed");

    [Fact]
    public void What_may_be_out_and_is_not_taken_up_is_a_warning_with_figures()
    {
        var finding = Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
            {go: up, by: 700, to: elbow, end: shop}
            {go: north, by: 700, to: flange}
            """, more: "forecast: {other: {position: 30, angle: 0.1}}"), "may be out", "take up");
        Assert.Equal(Rootgap.Findings.Severity.Warn, finding.Severity);
        Assert.Contains("main, leg ", finding.Remedy, StringComparison.Ordinal);
    }

    [Fact]
    public void One_final_fit_weld_between_them_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1500, to: elbow, end: final-fit}
        {go: north, by: 1500, to: flange}
        """));

    [Fact]
    public void A_line_that_ends_free_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1500, to: elbow, end: shop}
        {go: north, by: 1500, to: cap}
        """));
}
