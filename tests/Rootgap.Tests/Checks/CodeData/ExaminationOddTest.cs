using Rootgap.Findings;

namespace Rootgap.Tests.Checks;

public class ExaminationOddTest
{
    private const string Rule = "examination-share-odd";

    [Fact]
    public void A_code_without_a_share_is_noted() => Desk.Finds(Rule, "service", Desk.Drawing("""
        {go: up, by: 1000, to: flange}
        """, more: """
        service: {code: B31.3}
        """), "no share");

    [Theory]
    [InlineData("NFPA 24", "size: 6, schedule: 40, class: 150")]
    [InlineData("B31.3", "size: 2, schedule: 80, class: 150, ends: threaded, flange: TH")]
    public void A_code_beside_B31_and_a_line_without_welds_want_no_share(string code, string line) => Desk.IsSilent(Rule, Desk.Drawing("{go: up, by: 1000, to: flange}", $"service: {{code: {code}}}", line));

    [Fact]
    public void An_odd_share_is_noted() => Desk.Finds(Rule, "service", Desk.Drawing("""
        {go: up, by: 1000, to: flange}
        """, more: """
        service: {code: B31.3, examination: 7 %}
        """), "7 %");

    [Fact]
    public void Five_percent_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1000, to: flange}
        """, more: """
        service: {code: B31.3, examination: 5 %}
        """));

    [Fact]
    public void All_welds_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1000, to: flange}
        """, more: """
        service: {code: B31.3, examination: 100 % RT}
        """));

    [Fact]
    public void More_than_all_of_them_is_warned_of() => Assert.Equal(Severity.Warn, Desk.Finds(Rule, "service", Desk.Drawing("""
        {go: up, by: 1000, to: flange}
        """, more: """
        service: {code: B31.3, examination: 1000 %}
        """), "1000 %").Severity);
}
