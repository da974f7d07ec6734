namespace Rootgap.Tests.Checks;

public class PipeShortTest
{
    private const string Rule = "pipe-too-short";

    // ASME B16.9: 2 x 229 of take-off; 560 leaves 560 - 458 - 6.4 = 95.6.
    [Fact]
    public void A_pipe_shorter_than_the_shops_shortest_is_found() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 560, to: elbow}
        {go: up, by: 1000, to: flange}
        """), "95.6");

    [Fact]
    public void A_pipe_of_just_the_shortest_length_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 564.4, to: elbow}
        {go: up, by: 1000, to: flange}
        """));
}
