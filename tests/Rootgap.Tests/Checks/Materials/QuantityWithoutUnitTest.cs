using Rootgap.Fabricating;

namespace Rootgap.Tests.Checks;

public class QuantityWithoutUnitTest
{
    private const string Rule = "quantity-without-unit";

    private static string Drawing(string units, string quantity) => $$"""
        drawing: TEST-1
        revision: 1
        units: {{units}}
        line: {size: 6, schedule: 40, class: 150}
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 40, quantity: {{quantity}}}
        runs:
          - run: main
            start: {to: open}
            legs:
              - {go: north, by: 120, to: open}
        """;

    // 1 ft = 0.3048 m (international foot).
    [Fact]
    public void A_bare_number_is_feet_in_a_drawing_in_inches()
    {
        Desk.Finds(Rule, "materials[0]", Drawing("in", "24"), "24.0 ft");
        Assert.Equal(24 * 0.3048, Row("in", "24").Listed!.Value, 1e-9);
        Desk.IsSilent(Rule, Drawing("in", "24 ft"));
    }

    [Fact]
    public void A_bare_number_is_metres_in_a_drawing_in_millimetres()
    {
        Desk.Finds(Rule, "materials[0]", Drawing("mm", "24"), "24.00 m");
        Assert.Equal(24, Row("mm", "24").Listed!.Value, 1e-9);
    }

    private static MaterialRow Row(string units, string quantity) => Assert.Single(Given.Packet(Drawing(units, quantity)).Fabrication.Materials);
}
