namespace Rootgap.Tests.Checks;

public class SpoolTooLongTest
{
    private const string Rule = "spool-over-length";

    [Fact]
    public void A_spool_longer_than_the_envelope_is_found_at_its_longest_leg() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: north, by: 9000, to: weld}
        {go: north, by: 4000, to: flange}
        """), "13000 long", "1000 too long");

    [Fact]
    public void A_spool_that_is_parted_by_a_field_weld_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 9000, to: weld, end: field}
        {go: north, by: 4000, to: flange}
        """));

    [Fact]
    public void An_upright_spool_within_the_length_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 9000, to: weld}
        {go: up, by: 2900, to: flange}
        """));
}
