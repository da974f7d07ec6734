namespace Rootgap.Tests.Checks;

public class ItemAmbiguousTest
{
    private const string Rule = "item-ambiguous";

    [Fact]
    public void Two_rows_alike_are_noted() => Desk.Finds(Rule, "materials[2]", Lists.With("class: 150, bore: 40, material: A105, quantity: 2}", "class: 150, bore: 40, material: A105, quantity: 1}\n  - {item: 5, what: flange WN RF, size: 6, class: 150, bore: 40, material: A350-LF2, quantity: 1}"), "Items 2 and 5");

    [Fact]
    public void Rows_that_differ_are_silent() => Desk.IsSilent(Rule, Desk.Drawing(Lists.Leg, Lists.Straight, Lists.Line));
}
