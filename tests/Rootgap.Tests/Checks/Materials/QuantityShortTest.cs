namespace Rootgap.Tests.Checks;

public class QuantityShortTest
{
    private const string Rule = "quantity-short";

    // ASME B16.5: eight bolts to an NPS 6 class 150 flange.
    [Fact]
    public void One_flange_short_is_found() => Desk.Finds(Rule, "materials[1]", Lists.With("material: A105, quantity: 2", "material: A105, quantity: 1"), "2 needed, 1 listed: 1 short");

    [Fact]
    public void Eight_studs_short_are_found() => Desk.Finds(Rule, "materials[3]", Lists.With("quantity: 16", "quantity: 8"), "16 needed, 8 listed: 8 short");

    [Fact]
    public void Just_enough_is_silent() => Desk.IsSilent(Rule, Desk.Drawing(Lists.Leg, Lists.Straight, Lists.Line));

    [Fact]
    public void Two_rows_that_are_enough_together_are_silent() => Desk.IsSilent(Rule, Lists.With("class: 150, bore: 40, material: A105, quantity: 2}", "class: 150, bore: 40, material: A105, quantity: 1}\n  - {item: 5, what: flange WN RF, size: 6, class: 150, bore: 40, material: A105, quantity: 1}"));
}
