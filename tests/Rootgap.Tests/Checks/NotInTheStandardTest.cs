namespace Rootgap.Tests.Checks;

public class NotInTheStandardTest
{
    private const string Rule = "not-in-the-standard";

    // ASME B16.9 table of reducers: NPS 8 goes down to 3-1/2, and no farther.
    [Fact]
    public void A_reducer_beyond_the_standards_range_is_found() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: east, by: 1500, to: reducer, size: 2}
        {go: east, by: 900, to: flange}
        """, line: "size: 8, schedule: 40, class: 150"), "8 x 2");

    // ASME B16.9: NPS 8 x 4 is in the table.
    [Fact]
    public void A_reducer_within_the_range_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: east, by: 1500, to: reducer, size: 4}
        {go: east, by: 900, to: flange}
        """, line: "size: 8, schedule: 40, class: 150"));
}
