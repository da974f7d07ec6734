namespace Rootgap.Tests.Checks;

public class SkewLengthMisstatedTest
{
    private const string Rule = "skew-length-misstated";

    // 600 x sqrt 2 = 848.5
    [Fact]
    public void A_true_length_that_is_the_sum_of_the_sides_is_found() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: {north: 600, up: 600}, by: 1200, to: elbow}
        {go: north, by: 1500, to: flange}
        """), "848.5", "1200", "added up");

    [Fact]
    public void A_true_length_ten_times_off_is_found() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: {north: 600, up: 600}, by: 8485, to: elbow}
        {go: north, by: 1500, to: flange}
        """), "848.5", "8485");

    [Fact]
    public void A_plan_length_is_found() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: {north: 600, up: 600}, by: 600, to: elbow}
        {go: north, by: 1500, to: flange}
        """), "in plan");

    [Fact]
    public void The_true_length_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: {north: 600, up: 600}, by: 848.5, to: elbow}
        {go: north, by: 1500, to: flange}
        """));

    [Fact]
    public void A_mere_direction_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: {north: 1, up: 1}, by: 1200, to: elbow}
        {go: north, by: 1500, to: flange}
        """));

    [Fact]
    public void A_direction_of_length_1000_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: {north: 707.107, up: 707.107}, by: 1200, to: elbow}
        {go: north, by: 1500, to: flange}
        """));

    [Fact]
    public void Forty_five_degrees_written_with_thousands_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: {north: 1000, up: 1000}, by: 1200, to: elbow}
        {go: north, by: 1500, to: flange}
        """));
}
