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

    [Fact]
    public void Stainless_flanges_have_another_table_and_are_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1000, to: flange}
        """, more: """
        service: {design pressure: 25 bar}
        """, line: "size: 6, schedule: 40S, class: 150, material: A312-TP316L"));
}
