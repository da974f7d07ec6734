namespace Rootgap.Tests.Checks;

public class FieldWeldAtFlangeTest
{
    private const string Rule = "field-weld-at-bolted-flange";

    [Fact]
    public void A_field_weld_on_the_hub_of_a_flange_is_found() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: up, by: 1500, to: elbow}
        {go: north, by: 1500, to: flange, end: field}
        """), "flange WN");

    [Fact]
    public void A_field_weld_at_an_elbow_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1500, to: elbow, end: field}
        {go: north, by: 1500, to: flange}
        """));
}
