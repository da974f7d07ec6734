namespace Rootgap.Tests.Checks;

public class ServiceFigureUnreadTest
{
    private const string Rule = "service-figure-unread";

    private static string Drawing(string service) => Desk.Drawing("""
        {go: east, by: 1500, to: flange}
        """, more: $$"""
        service: { {{service}} }
        """);

    [Theory]
    [InlineData("design pressure: 10", "10")]
    [InlineData("design pressure: 10 bsr", "10 bsr")]
    [InlineData("design temperature: 50", "50")]
    public void A_figure_without_a_unit_that_is_known_is_found(string service, string says) => Desk.Finds(Rule, "service", Drawing(service), says);

    [Theory]
    [InlineData("design pressure: 10 barg, design temperature: 120 F, test pressure: 1.5 MPa, examination: 100% RT")]
    [InlineData("design pressure: full vacuum, design temperature: ambient")]
    public void Figures_with_units_and_words_are_silent(string service) => Desk.IsSilent(Rule, Drawing(service));
}
