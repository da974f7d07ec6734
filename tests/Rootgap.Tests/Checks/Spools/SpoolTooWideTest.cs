namespace Rootgap.Tests.Checks;

public class SpoolTooWideTest
{
    private const string Rule = "spool-over-width";

    [Fact]
    public void A_spool_wider_than_the_envelope_is_found() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: north, by: 6000, to: elbow}
        {go: east, by: 4000, to: flange}
        """), "wide", "shop's limit is 2400");

    [Theory]
    [InlineData(2000, "")]
    [InlineData(2600, "note")]
    [InlineData(4000, "warn")]
    public void A_flat_spool_a_little_too_wide_goes_in_leaned_over(int wide, string told) => Desk.Tells(Rule, told, Desk.Drawing($"{{go: north, by: 6000, to: elbow}}\n{{go: east, by: {wide}, to: flange}}"));

    [Fact]
    public void A_spool_just_inside_the_width_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 6000, to: elbow}
        {go: east, by: 2200, to: flange}
        """));

    [Fact]
    public void A_straight_spool_that_lies_askew_in_plan_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: {north: 6000, east: 6000}, to: flange}
        """));

    [Fact]
    public void A_flat_spool_that_lies_askew_in_plan_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: {north: 6000, east: 6000}, to: elbow}
        {go: {north: 1000, east: -1000}, to: flange}
        """));
}
