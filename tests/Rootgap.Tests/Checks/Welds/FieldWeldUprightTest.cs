namespace Rootgap.Tests.Checks;

public class FieldWeldUprightTest
{
    private const string Rule = "field-weld-in-upright-pipe";

    [Fact]
    public void A_field_weld_in_an_upright_pipe_is_found() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: up, by: 1500, to: elbow, end: field}
        {go: north, by: 1500, to: flange}
        """), "W2");

    [Fact]
    public void A_field_weld_in_a_level_pipe_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1500, to: elbow}
        {go: north, by: 1500, to: elbow, end: field}
        {go: east, by: 1500, to: flange}
        """));

    [Fact]
    public void A_shop_weld_in_an_upright_pipe_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1500, to: elbow, end: shop}
        {go: north, by: 1500, to: flange}
        """));
}
