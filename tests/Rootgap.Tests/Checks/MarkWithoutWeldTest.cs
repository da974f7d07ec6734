namespace Rootgap.Tests.Checks;

public class MarkWithoutWeldTest
{
    private const string Rule = "mark-without-weld";

    [Fact]
    public void A_field_weld_marked_at_a_dimension_point_is_found() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: north, by: 1500, to: point, end: field}
        {go: north, by: 1500, to: flange}
        """), "no weld");

    [Fact]
    public void A_field_weld_marked_at_a_weld_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 1500, to: weld, end: field}
        {go: north, by: 1500, to: flange}
        """));

    [Fact]
    public void The_usual_word_where_no_weld_is_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 1500, to: point, end: shop}
        {go: north, by: 1500, to: flange}
        """));
}
