namespace Rootgap.Tests.Checks;

public class LongLegUnsupportedTest
{
    private const string Rule = "long-leg-unsupported";

    // ASME B31.1 Table 121.5: NPS 6, water 17 ft (5.2 m), gas 21 ft (6.4 m).
    [Fact]
    public void Six_metres_of_level_six_inch_pipe_with_water_are_noted() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: north, by: 6000, to: flange}
        """), "5180");

    [Fact]
    public void Five_metres_are_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 5000, to: flange}
        """));

    [Fact]
    public void Six_metres_with_air_are_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 6000, to: flange}
        """, more: """
        service: {fluid: compressed air}
        """));

    [Fact]
    public void Six_metres_upright_are_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 6000, to: flange}
        """));
}
