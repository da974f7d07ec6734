using Rootgap.Findings;

namespace Rootgap.Tests.Checks;

/// <summary>ASME B31.3 345.4.2 and 345.5.4: a test is above the design pressure with water and with gas.</summary>
public class TestPressureUnderDesignTest
{
    private const string Rule = "test-pressure-under-design";

    private static string With(string more) => Desk.Drawing("{go: up, by: 1000, to: flange}", more: more);

    [Theory]
    [InlineData("service: {design pressure: 10 bar, test pressure: 1.5 bar}", "service", "1.5 bar is under the design pressure 10 bar")]
    [InlineData("service: {design pressure: 10 bar, test pressure: 15 bar}\ntest: {medium: air, pressure: 8 bar}", "test", "8 bar")]
    [InlineData("service: {design pressure: 150 psi, test pressure: 15 psi}", "service", "under the design pressure")]
    public void A_test_with_less_than_the_line_carries_is_warned_of(string more, string at, string says) =>
        Assert.Equal(Severity.Warn, Desk.Finds(Rule, at, With(more), says).Severity);

    [Theory]
    [InlineData("service: {design pressure: 10 bar, test pressure: 10 bar}")]
    [InlineData("service: {design pressure: 10 bar, test pressure: 11 bar}\ntest: {medium: air}")]
    [InlineData("service: {design pressure: 10 bar, test pressure: 1.5 MPa}")]
    [InlineData("service: {design pressure: 10 bar}")]
    public void A_test_at_or_above_it_is_not(string more) => Desk.IsSilent(Rule, With(more));
}
