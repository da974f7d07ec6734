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

    // ASME B36.10M has schedule 20 from NPS 8 up: the branch of this tee has no such wall, and no pipe stands on it that would tell.
    [Fact]
    public void A_wall_that_no_pipe_tells_is_found_at_the_fitting() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: east, by: 1500, to: tee, branch: up, branch size: 6}
        {go: east, by: 1500, to: flange}
        """, line: "size: 14, schedule: 20, class: 150"), "NPS 6 schedule 20");

    // MSS SP-97: a threaded outlet goes by its class; whether there is such pipe is the business of the pipe that comes.
    [Fact]
    public void A_threaded_outlet_needs_no_wall() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: east, by: 1500, to: outlet, branch: up, size: 2, ends: threaded}
        {go: east, by: 900, to: flange}
        """, line: "size: 14, schedule: 20, class: 150, fitting class: 3000"));
}
