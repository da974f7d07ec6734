namespace Rootgap.Tests.Checks;

public class FinalFitExtraShortTest
{
    private const string Rule = "final-fit-extra-short";

    private const string Legs = """
        {go: east, by: 1500, to: elbow, end: final-fit}
        {go: north, by: 2800, to: flange}
        """;

    // Closed form: two nozzles of sd 20 along the pipe, nothing else: 99 in 100 need 2.326 x 20 x root 2 = 65.8.
    private const string Only = "forecast: {other: {position: {normal: 20}, angle: 0}, spool: {position: 0, angle: 0}, bolted: {shift: 0, angle: 0, roll: 0}, shrinkage: 0}";

    [Fact]
    public void An_extra_under_what_99_lines_need_is_found_with_the_figure() =>
        Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing(Legs, more: Only + "\nshop: {final fit extra: 60}"), "60 is left on", "need about 66");

    [Theory]
    [InlineData(32, "warn")]
    [InlineData(34, "note")]
    public void Less_than_half_of_it_is_a_warning(int extra, string severity) => Desk.Tells(Rule, severity, Desk.Drawing(Legs, more: $"{Only}\nshop: {{final fit extra: {extra}}}"));

    [Fact]
    public void An_extra_over_it_is_silent() => Desk.IsSilent(Rule, Desk.Drawing(Legs, more: Only + "\nshop: {final fit extra: 72}"));

    [Fact]
    public void No_extra_at_all_is_another_rules_matter() => Desk.IsSilent(Rule, Desk.Drawing(Legs, more: Only + "\nshop: {final fit extra: 0}"));
}
