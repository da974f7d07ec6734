namespace Rootgap.Tests.Checks;

public class MeasuredUnusualTest
{
    private const string Rule = "measured-take-off-unusual";

    private static string Line(string measured) => Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: open}
        """, more: $$$$"""
        shop: {measured: {item 2: {take-off: {{{{measured}}}}}}}
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 40, quantity: 6 m}
          - {item: 2, what: elbow 90 LR, size: 6, schedule: 40, quantity: 1}
        """, start: "to: open");

    // ASME B16.9: an NPS 6 long-radius elbow is 229 from centre to end, within 2 mm.
    [Fact]
    public void Digits_changed_over_in_a_measure_are_found() => Desk.Finds(Rule, "", Line("292"), "292", "229", "Item 2");

    [Fact]
    public void A_measure_within_reach_of_the_tolerance_is_silent() => Desk.IsSilent(Rule, Line("230.5"));
}
