namespace Rootgap.Tests.Checks;

public class MaleEndWithoutFittingTest
{
    [Theory]
    [InlineData("{go: east, by: 400, to: open, ends: plain}")]
    [InlineData("{go: east, by: makeup, to: elbow, ends: butt}\n{go: up, by: 300, to: open}")]
    [InlineData("{go: east, by: makeup, to: coupling, ends: threaded}\n{go: east, by: 300, to: open, ends: threaded}")]
    public void A_male_end_that_meets_nothing_to_go_into_is_a_stop(string after) =>
        Desk.Finds("male-end-without-fitting", "runs[0].legs[1]", Desk.Drawing("{go: east, by: 600, to: swage, size: 3/4, small end: plain}\n" + after, line: "size: 2, schedule: 80", start: "to: open"), "neither goes into the other");

    [Theory]
    [InlineData("{go: east, by: makeup, to: coupling, ends: socket}\n{go: east, by: 400, to: open, ends: plain}")]
    [InlineData("{go: east, by: makeup, to: elbow, ends: socket}\n{go: up, by: 400, to: open, ends: plain}")]
    public void A_plain_end_in_a_socket_is_silent(string after) =>
        Desk.IsSilent("male-end-without-fitting", Desk.Drawing("{go: east, by: 600, to: swage, size: 3/4, small end: plain}\n" + after, line: "size: 2, schedule: 80", start: "to: open"));
}
