namespace Rootgap.Tests.Checks;

public class DrainOrVentWrongWayTest
{
    private const string Rule = "drain-or-vent-wrong-way";

    private static string Drawing(string name, string way) => $$"""
        drawing: TEST-1
        revision: 1
        line: {size: 6, schedule: 40, class: 150}
        runs:
          - run: main
            start: {to: flange}
            legs:
              - {go: east, by: 1500, to: outlet, name: A, branch: {{way}}, size: 1}
              - {go: east, by: 900, to: flange}
          - run: {{name}}
            size: 1
            start: {from: A}
            legs: [{go: {{way}}, by: 300, to: flange}]
        """;

    // common practice
    [Theory]
    [InlineData("drain", "up")]
    [InlineData("high vent", "down")]
    public void Up_and_down_changed_over_is_found(string name, string way) => Desk.Finds(Rule, "runs[1].legs[0]", Drawing(name, way));

    [Theory]
    [InlineData("drain", "down")]
    [InlineData("vent", "up")]
    [InlineData("ventilation", "down")]
    public void As_water_and_air_go_is_silent(string name, string way) => Desk.IsSilent(Rule, Drawing(name, way));
}
