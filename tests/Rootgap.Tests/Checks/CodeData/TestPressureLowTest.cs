namespace Rootgap.Tests.Checks;

public class TestPressureLowTest
{
    private const string Rule = "test-pressure-low";

    private static string With(string more) => Desk.Drawing("{go: up, by: 1000, to: flange}", more: more);

    // ASME B31.3 345.4.2: 1.5 times with water; 345.5.4: 1.1 times with gas.
    [Theory]
    [InlineData("service: {design pressure: 10 bar, test pressure: 14 bar}\ntest: {medium: water}", "with water 1.5 times is wanted, 15 bar at least")]
    [InlineData("service: {design pressure: 10 bar, test pressure: 10.5 bar}\ntest: {medium: air}", "with air 1.1 times is wanted, 11 bar at least")]
    [InlineData("service: {design pressure: 10 bar, test pressure: 15 bar}\ntest: {medium: water, stress ratio: 1.2}", "18 bar at least")]
    public void A_test_that_is_too_little_for_its_medium_is_noted(string more, string says) => Desk.Finds(Rule, "service", With(more), says);

    [Fact]
    public void The_pressure_of_the_test_itself_counts_before_that_of_the_service() =>
        Desk.Finds(Rule, "test", With("service: {design pressure: 10 bar, test pressure: 15 bar}\ntest: {medium: water, pressure: 12 bar}"), "Test pressure 12 bar");

    [Fact]
    public void A_test_that_is_enough_for_air_alone_asks_for_the_medium() =>
        Desk.Finds(Rule, "service", With("service: {design pressure: 10 bar, test pressure: 11 bar}"), "enough for a test with air, too little for one with water (15 bar)");

    [Theory]
    [InlineData("service: {design pressure: 10 bar, test pressure: 8 bar}")]
    [InlineData("service: {design pressure: 10 bar, test pressure: 15 bar}")]
    [InlineData("service: {design pressure: 17 bar, test pressure: 19 bar, code: B31.5}")]
    [InlineData("service: {design pressure: 175 psi, test pressure: 225 psi, code: NFPA 24}")]
    [InlineData("service: {design pressure: 10 bar, test pressure: 11 bar}\ntest: {medium: nitrogen}")]
    [InlineData("service: {design pressure: 10 bar, test pressure: 18 bar}\ntest: {medium: water, stress ratio: 1.2}")]
    [InlineData("service: {design pressure: 150 psi, test pressure: 225 psi}\ntest: {medium: water}")]
    public void A_test_that_is_enough_is_silent(string more) => Desk.IsSilent(Rule, With(more));
}
