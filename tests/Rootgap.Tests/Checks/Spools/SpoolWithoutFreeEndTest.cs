namespace Rootgap.Tests.Checks;

public class SpoolWithoutFreeEndTest
{
    private const string Rule = "spool-without-free-end";

    [Fact]
    public void A_spool_that_is_capped_at_both_ends_is_found() => Desk.Finds(Rule, "runs[0].start", Desk.Drawing("""
        {go: north, by: 2000, to: cap}
        """, start: "to: cap"), "joined to nothing");

    [Fact]
    public void A_spool_with_a_flange_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 2000, to: cap}
        """));

    [Fact]
    public void A_spool_with_an_open_end_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 2000, to: open}
        """, start: "to: cap"));
}
