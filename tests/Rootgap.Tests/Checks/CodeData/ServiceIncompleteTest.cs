namespace Rootgap.Tests.Checks;

public class ServiceIncompleteTest
{
    private const string Rule = "service-incomplete", Carbon = "size: 6, schedule: 40, class: 150, material: A106-B";

    [Fact]
    public void A_drawing_without_a_service_is_noted() => Desk.Finds(Rule, "", Desk.Drawing("""
        {go: up, by: 1000, to: flange}
        """), "does not say what service");

    [Fact]
    public void A_service_without_a_code_is_noted() => Desk.Finds(Rule, "", Desk.Drawing("""
        {go: up, by: 1000, to: flange}
        """, more: """
        service: {fluid: water, design pressure: 10 bar, design temperature: 50 C}
        """, line: Carbon), "no code");

    [Fact]
    public void A_complete_service_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1000, to: flange}
        """, more: """
        service: {fluid: water, code: B31.3, design pressure: 10 bar, design temperature: 50 C}
        """, line: Carbon));
}
