namespace Rootgap.Tests.Checks;

public class ItemNumberUnknownTest
{
    private const string Rule = "item-number-unknown";

    [Fact]
    public void A_number_that_the_list_does_not_have_is_found() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("{go: up, by: 1000, to: flange, item: 9}", Lists.Straight, Lists.Line), "no item 9");

    [Fact]
    public void A_number_that_the_list_has_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("{go: up, by: 1000, to: flange, item: 2}", Lists.Straight, Lists.Line));

    [Fact]
    public void Without_a_list_any_number_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("{go: up, by: 1000, to: flange, item: 9}"));
}
