namespace Rootgap.Tests.Checks;

public class SpoolAcrossFieldWeldTest
{
    private const string Rule = "spool-across-field-weld";

    [Fact]
    public void One_name_on_both_sides_of_a_field_weld_is_found() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: north, by: 2000, to: elbow, spool: A}
        {go: east, by: 2000, to: elbow, spool: A, end: field}
        {go: north, by: 2000, to: flange}
        """), "both sides of field weld");

    [Theory]
    [InlineData("A", "stop")]
    [InlineData("B", "")]
    public void A_support_that_names_a_spool_names_it_for_its_pipe(string spool, string told) => Desk.Tells(Rule, told, Desk.Drawing($$"""
        {go: north, by: 2000, to: elbow, spool: A}
        {go: east, by: 1000, begin: field, to: support, kind: shoe, spool: {{spool}}}
        {go: east, by: 2000, to: elbow}
        {go: north, by: 2000, to: flange}
        """));

    [Fact]
    public void Two_names_on_two_sides_are_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 2000, to: elbow, spool: A}
        {go: east, by: 2000, to: elbow, spool: B, end: field}
        {go: north, by: 2000, to: flange}
        """));

    [Fact]
    public void A_valves_far_flange_is_the_next_spools_and_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 2000, to: valve, kind: gate, spool: A}
        {go: north, by: 2000, to: flange, spool: B}
        """, start: "to: flange, spool: A"));
}
