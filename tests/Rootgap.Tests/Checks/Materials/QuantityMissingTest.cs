namespace Rootgap.Tests.Checks;

public class QuantityMissingTest
{
    private const string Rule = "quantity-missing";

    [Fact]
    public void A_row_without_a_quantity_is_noted() => Desk.Finds(Rule, "materials[1]", Lists.With("material: A105, quantity: 2", "material: A105"), "needs 2");

    [Fact]
    public void Rows_with_quantities_are_silent() => Desk.IsSilent(Rule, Desk.Drawing(Lists.Leg, Lists.Straight, Lists.Line));
}
