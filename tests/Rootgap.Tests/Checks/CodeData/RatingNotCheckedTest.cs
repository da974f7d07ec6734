namespace Rootgap.Tests.Checks;

public class RatingNotCheckedTest
{
    private const string Rule = "rating-not-checked";

    private static string Drawing(string service, string material, string @class = "150") => Desk.Drawing("""
        {go: up, by: 1000, to: flange}
        """, more: $$"""
        service: { {{service}} }
        """, line: $"size: 6, schedule: 40, class: {@class}, material: {material}");

    // ASME B16.5 Table 1A: A350-LF1 is of group 1.4, whose ratings are not among the tables.
    [Fact]
    public void A_group_without_its_table_is_told() => Desk.Finds(Rule, "service", Drawing("design pressure: 10 bar", "A350-LF1"), "group 1.4");

    // ASME B16.5 Table 2-1.1 ends at 538 C.
    [Fact]
    public void A_temperature_beyond_the_table_is_told() => Desk.Finds(Rule, "service", Drawing("design pressure: 1 bar, design temperature: 560 C", "A105"), "class 150 of A105 (group 1.1) at 560 C");

    [Fact]
    public void A_material_that_nobody_knows_is_told() => Desk.Finds(Rule, "service", Drawing("test pressure: 40 bar", "B161-N02200"), "B161-N02200");

    [Fact]
    public void What_is_checked_and_what_has_no_pressure_is_silent()
    {
        Desk.IsSilent(Rule, Drawing("design pressure: 10 bar, design temperature: 480 C", "A105"));
        Desk.IsSilent(Rule, Drawing("fluid: water", "A350-LF1"));
    }
}
