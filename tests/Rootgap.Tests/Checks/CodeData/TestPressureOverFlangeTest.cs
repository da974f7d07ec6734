namespace Rootgap.Tests.Checks;

public class TestPressureOverFlangeTest
{
    private const string Rule = "test-pressure-over-flange";

    // ASME B16.5 2.6: 1.5 x 19.6 = 29.4, rounded up to 30 bar.
    [Fact]
    public void Thirty_five_bar_on_class_150_is_a_warning() => Assert.Equal(Rootgap.Findings.Severity.Warn, Desk.Finds(Rule, "service", Desk.Drawing("""
        {go: up, by: 1000, to: flange}
        """, more: """
        service: {test pressure: 35 bar}
        """), "may be tested to 30 bar").Severity);

    [Fact]
    public void Thirty_bar_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1000, to: flange}
        """, more: """
        service: {test pressure: 30 bar}
        """));

    [Fact]
    public void A_test_of_435_psi_is_just_thirty_bar_and_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1000, to: flange}
        """, more: """
        service: {test pressure: 435 psi}
        """));

    // ASME B16.5 2.6 with the psi tables: 1.5 x 285 = 427.5, up to the next 25 psi: 450; class 300: 1.5 x 740 = 1110: 1125 (as a vessel-calculation publisher's page has it).
    [Theory]
    [InlineData("150", 450)]
    [InlineData("300", 1125)]
    public void In_inches_it_goes_up_to_the_next_25_psi(string @class, int psi)
    {
        string Inches(int test) => Desk.Drawing("""
            {go: up, by: 40, to: flange}
            """, more: $$"""
            units: in
            service: {test pressure: {{test}} psi}
            """, line: $"size: 6, schedule: 40, class: {@class}");
        Desk.IsSilent(Rule, Inches(psi));
        Desk.Finds(Rule, "service", Inches(psi + 5), $"may be tested to {psi} psi: 5 psi over");
    }
}
