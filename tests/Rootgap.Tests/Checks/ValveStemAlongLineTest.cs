namespace Rootgap.Tests.Checks;

public class ValveStemAlongLineTest
{
    private const string Rule = "valve-stem-along-line";

    [Fact]
    public void A_stem_along_the_pipe_is_found() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: north, by: 1450, to: valve, kind: gate, stem: north}
        {go: north, by: 3200, to: flange}
        """), "along the pipe");

    [Fact]
    public void A_stem_back_along_the_pipe_is_found() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: north, by: 1450, to: valve, kind: gate, stem: south}
        {go: north, by: 3200, to: flange}
        """), "along the pipe");

    [Fact]
    public void A_stem_square_to_the_pipe_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 1450, to: valve, kind: gate, stem: up}
        {go: north, by: 3200, to: flange}
        """));

    [Fact]
    public void A_slanting_stem_is_another_matter() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 1450, to: valve, kind: globe, stem: {north: 1, up: 1}}
        {go: north, by: 3200, to: flange}
        """));
}
