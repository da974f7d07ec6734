namespace Rootgap.Tests.Checks;

public class ColdServiceMaterialTest
{
    private const string Rule = "cold-service-material";

    private static string Drawing(string celsius, string pipe) => Desk.Drawing("""
        {go: east, by: 1500, to: open}
        """, more: $$"""
        service: {design pressure: 5 bar, design temperature: {{celsius}}}
        """, line: "size: 6, schedule: 40, class: 150, material: " + pipe, start: "to: open");

    // ASME B31.3 323.2.2: A106 down to -29 C without an impact test; A333 grade 6 to -46.
    [Fact]
    public void Ordinary_carbon_steel_in_the_cold_is_found() => Desk.Finds(Rule, "runs[0].legs[0]", Drawing("-40 C", "A106-B"), "A106-B at -40 C");

    [Theory]
    [InlineData("-40 C", "A333-6")]
    [InlineData("-100 C", "A312-TP304L")]
    [InlineData("-20 C", "A106-B")]
    public void What_is_made_for_it_is_silent(string celsius, string pipe) => Desk.IsSilent(Rule, Drawing(celsius, pipe));
}
