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
}
