namespace Rootgap.Tests.Checks;

public class LooseFittingSpoolTest
{
    private const string Rule = "loose-fitting-as-spool";

    [Fact]
    public void An_elbow_between_two_field_welds_is_found() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: north, by: 2000, to: elbow, end: field}
        {go: east, by: 2000, to: flange, begin: field}
        """), "elbow 90 LR");

    [Fact]
    public void An_elbow_with_one_shop_weld_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 2000, to: elbow, end: field}
        {go: east, by: 2000, to: flange}
        """));
}
