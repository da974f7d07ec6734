namespace Rootgap.Tests.Checks;

public class BoltsTooWeakTest
{
    private const string Rule = "bolts-too-weak";

    private static string Drawing(string bolts, string gasket) => Desk.Drawing("""
        {go: east, by: 1500, to: flange}
        """, more: $$"""
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 40, quantity: 6 m}
          - {item: 2, what: flange WN RF, size: 6, class: 150, bore: 40, quantity: 2}
          - {item: 3, what: {{gasket}}, size: 6, class: 150, quantity: 2}
          - {item: 4, what: stud bolt, size: 3/4, length: 100, material: {{bolts}}, quantity: 16}
        """);

    // ASME B16.5 5.3.4 and 5.4.2: bolts of low strength with gaskets of the soft kind only.
    [Fact]
    public void Low_strength_bolts_at_spiral_wound_gaskets_are_found() => Desk.Finds(Rule, "materials[3]", Drawing("A307-B", "gasket spiral wound"), "A307-B");

    // ASME B31.3 table A-2: A193-B7 to -48 C, A320-L7 to -101 C.
    [Theory]
    [InlineData("20 C", "A193-B7")]
    [InlineData("-60 C", "A320-L7")]
    [InlineData("-170 C", "A320-B8 class 2")]
    public void The_remedy_names_studs_that_bear_the_cold(string temperature, string studs) =>
        Assert.Contains(studs, Desk.Finds(Rule, "materials[3]", Drawing("A320-B8", "gasket spiral wound").Replace("materials:", $"service: {{design temperature: {temperature}}}\nmaterials:", StringComparison.Ordinal)).Remedy, StringComparison.Ordinal);

    [Theory]
    [InlineData("A193-B7", "gasket spiral wound")]
    [InlineData("A193-B8 Cl.2", "gasket spiral wound")]
    [InlineData("A307-B", "gasket flat")]
    public void Studs_and_soft_gaskets_are_silent(string bolts, string gasket) => Desk.IsSilent(Rule, Drawing(bolts, gasket));
}
