namespace Rootgap.Tests.Checks;

public class HeatMissingTest
{
    private const string Rule = "heat-missing";

    private static string Drawing(string heat) => Desk.Drawing("""
        {go: east, by: 1500, to: elbow}
        {go: north, by: 900, to: flange}
        """, more: $$"""
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 40, quantity: 6 m, heat: 4711}
          - {item: 2, what: elbow 90 LR, size: 6, schedule: 40, quantity: 1{{heat}}}
          - {item: 3, what: flange WN RF, size: 6, class: 150, bore: 40, quantity: 2, heat: 88A}
          - {item: 4, what: gasket spiral wound, size: 6, class: 150, quantity: 2}
        """);

    [Fact]
    public void One_of_many_without_a_heat_is_found() => Desk.Finds(Rule, "materials[1]", Drawing(""), "2 of 3");

    [Fact]
    public void A_list_with_all_heats_is_silent() => Desk.IsSilent(Rule, Drawing(", heat: C19"));
}
