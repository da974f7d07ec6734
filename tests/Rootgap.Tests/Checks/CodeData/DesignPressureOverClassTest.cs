namespace Rootgap.Tests.Checks;

public class DesignPressureOverClassTest
{
    private const string Rule = "design-pressure-over-class";

    // ASME B16.5 Table 2-1.1, group 1.1: class 150 carries 19.6 bar at 38 C, 12.1 at 250.
    [Fact]
    public void Twenty_five_bar_on_class_150_is_found() => Desk.Finds(Rule, "service", Desk.Drawing("""
        {go: up, by: 1000, to: flange}
        """, more: """
        service: {design pressure: 25 bar}
        """), "19.6 bar at 38 C", "5.4 bar over");

    [Fact]
    public void Fifteen_bar_at_250_degrees_is_found() => Desk.Finds(Rule, "service", Desk.Drawing("""
        {go: up, by: 1000, to: flange}
        """, more: """
        service: {design pressure: 15 bar, design temperature: 250 C}
        """), "12.1 bar");

    [Fact]
    public void Fifteen_bar_at_50_degrees_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1000, to: flange}
        """, more: """
        service: {design pressure: 15 bar, design temperature: 50 C}
        """));

    [Fact]
    public void Twenty_five_bar_on_class_300_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1000, to: flange}
        """, more: """
        service: {design pressure: 25 bar}
        """, line: "size: 6, schedule: 40, class: 300"));

    // ASME B16.5 Tables 2-2.3 and 2-2.2: class 150 at 38 C carries 15.9 bar in F316L and 19.0 in F316 (open source transcriptions of both).
    [Fact]
    public void Stainless_flanges_have_the_table_of_their_group()
    {
        Desk.Finds(Rule, "service", Stainless("18.5", "A312-TP316L"), "15.9 bar at 38 C");
        Desk.IsSilent(Rule, Stainless("18.5", "A312-TP316"));
        Desk.IsSilent(Rule, Stainless("15.5", "A182-F316L"));
    }

    private static string Stainless(string bar, string material) => Desk.Drawing("""
        {go: up, by: 1000, to: flange}
        """, more: $$"""
        service: {design pressure: {{bar}} bar}
        """, line: "size: 6, schedule: 40S, class: 150, material: " + material);

    // ASME B16.5 Table 2-1.1: class 150 carries 3.7 bar at 475 C and 2.8 at 500.
    [Fact]
    public void Four_bar_at_480_degrees_is_found() => Desk.Finds(Rule, "service", Desk.Drawing("""
        {go: up, by: 1000, to: flange}
        """, more: """
        service: {design pressure: 4 bar, design temperature: 480 C}
        """, line: "size: 6, schedule: 40, class: 150, material: A105"), "3.5 bar at 480 C");
}
