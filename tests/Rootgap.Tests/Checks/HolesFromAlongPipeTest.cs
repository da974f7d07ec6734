namespace Rootgap.Tests.Checks;

public class HolesFromAlongPipeTest
{
    private const string Rule = "holes-from-along-pipe";

    [Fact]
    public void A_line_along_the_pipe_is_found() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: north, by: 1450, to: flange, holes from: north}
        """), "along the pipe");

    [Fact]
    public void A_line_across_the_pipe_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 1450, to: flange, holes from: east}
        """));
}
