namespace Rootgap.Tests.Checks;

public class ValveStemSkewTest
{
    private const string Rule = "valve-stem-skew";

    [Fact]
    public void A_slanting_stem_is_noted() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: north, by: 1450, to: valve, kind: globe, stem: {north: 1, up: 1}}
        {go: north, by: 3200, to: flange}
        """), "45");

    [Fact]
    public void A_stem_square_to_the_pipe_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 1450, to: valve, kind: gate, stem: up}
        {go: north, by: 3200, to: flange}
        """));
}
