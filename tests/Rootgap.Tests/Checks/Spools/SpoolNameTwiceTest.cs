namespace Rootgap.Tests.Checks;

public class SpoolNameTwiceTest
{
    private const string Rule = "spool-name-twice";

    [Fact]
    public void A_name_given_to_two_spools_apart_is_found() => Desk.Finds(Rule, "runs[0].legs[2]", Desk.Drawing("""
        {go: north, by: 2000, to: weld, end: field, spool: A}
        {go: north, by: 2000, to: weld, end: field, spool: B}
        {go: north, by: 2000, to: flange, spool: A}
        """), "is taken");

    [Fact]
    public void Three_names_are_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 2000, to: weld, end: field, spool: A}
        {go: north, by: 2000, to: weld, end: field, spool: B}
        {go: north, by: 2000, to: flange, spool: C}
        """));
}
