namespace Rootgap.Tests.Checks;

public class NearlyOnAxisTest
{
    private const string Rule = "nearly-on-axis";

    [Fact]
    public void A_vector_half_a_degree_off_north_is_found() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: {north: 3000, east: 25}, to: flange}
        """), "north", "25 east");

    [Fact]
    public void A_vector_two_degrees_off_north_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: {north: 3000, east: 105}, to: flange}
        """));

    [Fact]
    public void A_vector_along_an_axis_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: {north: 3000}, to: flange}
        """));
}
