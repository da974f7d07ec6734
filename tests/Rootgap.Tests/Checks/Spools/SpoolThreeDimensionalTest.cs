namespace Rootgap.Tests.Checks;

public class SpoolThreeDimensionalTest
{
    private const string Rule = "spool-three-dimensional";

    [Fact]
    public void A_spool_that_stands_out_in_three_directions_is_found() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: north, by: 2000, to: elbow}
        {go: east, by: 2000, to: elbow}
        {go: up, by: 2000, to: flange}
        """), "three directions");

    [Fact]
    public void A_flat_spool_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 2000, to: elbow}
        {go: east, by: 2000, to: elbow}
        {go: north, by: 2000, to: flange}
        """));
}
