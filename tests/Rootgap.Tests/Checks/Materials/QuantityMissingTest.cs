using Rootgap.Findings;

namespace Rootgap.Tests.Checks;

public class QuantityMissingTest
{
    private const string Rule = "quantity-missing";

    [Fact]
    public void A_row_without_a_quantity_is_noted() => Desk.Finds(Rule, "materials[1]", Lists.With("material: A105, quantity: 2", "material: A105"), "needs 2");

    [Fact]
    public void Rows_with_quantities_are_silent() => Desk.IsSilent(Rule, Desk.Drawing(Lists.Leg, Lists.Straight, Lists.Line));

    private static string Line(params string[] quantities) => Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: flange}
        """, more: $$"""
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 40{{quantities[0]}}}
          - {item: 2, what: elbow 90 LR, size: 6, schedule: 40{{quantities[1]}}}
          - {item: 3, what: flange WN RF, size: 6, class: 150, bore: 40{{quantities[2]}}}
          - {item: 4, what: gasket spiral wound, size: 6, class: 150{{quantities[3]}}}
        """, start: "to: open");

    [Fact]
    public void The_one_row_that_was_forgotten_is_warned_of() =>
        Assert.Equal(Severity.Warn, Desk.Finds(Rule, "materials[3]", Line(", quantity: 5 m", ", quantity: 1", ", quantity: 1", "")).Severity);

    [Fact]
    public void A_list_without_quantities_is_noted() =>
        Assert.Equal(Severity.Note, Desk.Finds(Rule, "materials[1]", Line("", "", "", "")).Severity);
}
