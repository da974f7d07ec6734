namespace Rootgap.Tests.Checks;

public class ClassChangesTest
{
    private const string Rule = "class-changes";

    [Fact]
    public void A_valve_of_another_class_in_the_line_is_noted() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: up, by: 1450, to: valve, kind: gate, class: 300}
        {go: up, by: 3200, to: flange}
        """), "300", "150");

    [Fact]
    public void A_valve_of_the_lines_class_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: valve, kind: gate, class: 150}
        {go: up, by: 3200, to: flange}
        """));
}
