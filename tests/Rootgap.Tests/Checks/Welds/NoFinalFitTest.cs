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

    // Common practice: an air valve or an instrument stands on the line that carries it, and moves with it.
    [Theory]
    [InlineData(2, "", 6, "note")]
    [InlineData(2, ", at: {east: 300, north: 1500, up: 2300}", 6, "warn")]
    [InlineData(2, "", 3, "note")]
    [InlineData(3, "", 6, "note")]
    public void The_flange_of_a_small_straight_branch_hangs_on_the_line(int branch, string at, int header, string severity) => Desk.Tells(Rule, severity, Desk.Drawing($$"""
        {go: up, by: 1500, to: outlet, name: A1, branch: east, size: {{branch}}}
        {go: up, by: 1500, to: cap}
        """, line: $"size: {header}, schedule: 80, class: 150") + $$"""

              - run: air valve
                size: {{branch}}
                start: {from: A1}
                legs:
                  - {go: east, by: 500, to: valve, kind: gate}
                  - {go: east, by: 400, to: flange{{at}}}
            """);

    [Fact]
    public void A_final_fit_weld_is_reckoned_to_what_stands_fast_and_not_to_the_air_valve_beside_it()
    {
        static string Line(string branch, string run) => Desk.Drawing($$"""
            {go: east, by: 9000, to: elbow}
            {go: north, by: 4000, to: elbow, end: final-fit}
            {go: east, by: 1000, to: point}
            {go: east, by: 1000, {{branch}}}
            {go: east, by: 1000, to: flange}
            """, line: "size: 6, schedule: 40, class: 150") + run;
        var plain = Desk.Packet(Line("to: point", "")).Findings.Where(f => f.Rule.StartsWith("final-fit", StringComparison.Ordinal)).Select(f => f.Message);
        var carrying = Desk.Packet(Line("to: outlet, name: A1, branch: up, size: 2", """

              - run: air valve
                size: 2
                schedule: 80
                start: {from: A1}
                legs: [{go: up, by: 500, to: valve, kind: gate}, {go: up, by: 300, to: flange}]
            """)).Findings.Where(f => f.Rule.StartsWith("final-fit", StringComparison.Ordinal)).Select(f => f.Message);
        Assert.NotEmpty(plain);
        Assert.Equal(plain.Select(Rigid), carrying.Select(Rigid));

        static string Rigid(string message) => System.Text.RegularExpressions.Regex.Replace(message, "[0-9]+", "#");
    }

    [Fact]
    public void A_line_that_ends_free_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1500, to: elbow, end: shop}
        {go: north, by: 1500, to: cap}
        """));
}
