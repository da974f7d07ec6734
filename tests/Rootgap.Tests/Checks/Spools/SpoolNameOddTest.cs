namespace Rootgap.Tests.Checks;

public class SpoolNameOddTest
{
    private const string Rule = "spool-name-odd";

    private static string Named(string first, string second, string third) => Desk.Drawing($$"""
        {go: north, by: 3000, to: elbow, end: field, spool: {{first}}}
        {go: east, by: 3000, to: elbow, end: field, spool: {{second}}}
        {go: north, by: 3000, to: flange, spool: {{third}}}
        """);

    // Common practice: the spools of a drawing are lettered alike and numbered on.
    [Theory]
    [InlineData("SP-1", "PS-2", "SP-3")]
    [InlineData("SP-1", "SR-2", "SP-3")]
    [InlineData("CA-220-A", "CA-202-B", "CA-220-C")]
    [InlineData("AB1", "AB2", "ba3")]
    public void Letters_turned_or_misread_are_told(string first, string second, string third) => Desk.Tells(Rule, "warn", Named(first, second, third));

    [Fact]
    public void It_is_told_at_the_odd_one() => Desk.Finds(Rule, "runs[0].legs[1]", Named("SP-1", "PS-2", "SP-3"), "PS-2", "SP-1");

    [Theory]
    [InlineData("SP-1", "SP-2", "SP-3")]
    [InlineData("A-1", "B-2", "A-3")]
    [InlineData("CA-220-A", "CA-221-B", "CA-222-C")]
    [InlineData("SP-1", "FIELD-2", "SP-3")]
    [InlineData("SP-1", "PS-2", "XY-3")]
    public void Names_that_agree_or_are_of_another_kind_are_silent(string first, string second, string third) => Desk.IsSilent(Rule, Named(first, second, third));
}
