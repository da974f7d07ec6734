namespace Rootgap.Tests.Checks;

public class AcceptUnknownRuleTest
{
    private const string Rule = "accept-unknown-rule";

    [Fact]
    public void A_name_that_no_rule_has_is_found_with_the_nearest() => Assert.Contains(
        "no-final-fit",
        Desk.Finds(Rule, "accept[0]", Desk.Drawing("{go: up, by: 1000, to: flange}", "accept: [{rule: no-final-fitt, why: it is measured}]"), "no-final-fitt").Remedy,
        StringComparison.Ordinal);

    [Fact]
    public void A_name_that_a_rule_has_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("{go: up, by: 1000, to: flange}", "accept: [{rule: no-final-fit, why: it is measured}]"));
}
