using Rootgap.Findings;

namespace Rootgap.Tests.Checks;

public class FinalFitDirectionMissingTest
{
    private const string Rule = "final-fit-direction-missing";

    // A nozzle may stand 30 off in every direction; the joints of a short line do not take that up.
    private const string WideOut = "forecast: {other: {position: 30, angle: 0.1}}";

    [Fact]
    public void A_direction_that_nothing_takes_up_is_a_warning_that_names_it_and_the_leg()
    {
        var finding = Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
            {go: east, by: 1500, to: elbow, end: final-fit}
            {go: north, by: 800, to: flange}
            """, more: WideOut), "north or south", "not enough");
        Assert.Equal(Severity.Warn, finding.Severity);
        Assert.Contains("leg 2 of main", finding.Remedy, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("up", "{south: 1, east: 1}", "south-east or north-west")]
    [InlineData("up", "{north: 1.7320508, east: 1}", "at 30° east of north, or back")]
    [InlineData("east", "{north: 1, up: 1}", "at north, 45° up, or back")]
    public void A_direction_off_the_axes_is_said_as_a_compass_says_it(string fit, string go, string says) => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing($$"""
        {go: {{fit}}, by: 1500, to: weld, end: final-fit}
        {go: {{fit}}, by: 1500, to: elbow}
        {go: {{go}}, by: 800, to: elbow}
        {go: {{fit}}, by: 1500, to: flange}
        """, more: WideOut), says);

    [Fact]
    public void What_the_bolted_joints_take_up_is_a_note()
    {
        var finding = Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
            {go: east, by: 1500, to: elbow, end: final-fit}
            {go: north, by: 4800, to: flange}
            """, more: "forecast: {other: {position: 1, angle: 0.02}, spool: {position: 1, angle: 0.02}}"), "north or south");
        Assert.Equal(Severity.Note, finding.Severity);
    }

    [Fact]
    public void A_final_fit_weld_in_each_direction_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: east, by: 1500, to: elbow, end: final-fit}
        {go: north, by: 2800, to: flange, begin: shop, end: final-fit}
        """, more: WideOut));

    [Fact]
    public void A_straight_line_has_no_other_direction() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: east, by: 1500, to: weld, end: final-fit}
        {go: east, by: 2800, to: flange}
        """, more: WideOut));
}
