namespace Rootgap.Tests.Checks;

public class DoesNotCloseTest
{
    private const string Rule = "does-not-close";

    [Fact]
    public void Legs_that_miss_the_stated_place_are_found_axis_by_axis() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: flange, at: {north: 3110, up: 1450}}
        """), "90 north");

    // A millimetre is what a tape shows.
    [Fact]
    public void Legs_that_miss_by_a_little_more_than_a_tape_cannot_show_are_found() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: flange, at: {north: 3201.2, up: 1450}}
        """), "1.2");

    [Fact]
    public void Legs_that_miss_by_what_a_tape_cannot_show_are_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: flange, at: {north: 3200.9, up: 1450}}
        """));

    [Fact]
    public void An_elevation_alone_is_told_by_its_own_rule() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: flange, at: {north: 3200, up: 1400}}
        """));

    [Fact]
    public void Every_leg_that_could_be_the_wrong_one_is_named_in_the_remedy()
    {
        // Seven legs go north, more than are told at their own rows: 90 too much may stand in each of them.
        var finding = Desk.Finds(Rule, "runs[0].legs[7]", Desk.Drawing("""
            {go: north, by: 1450, to: elbow}
            {go: east, by: 800, to: elbow}
            {go: north, by: 1000, to: tee, name: A, branch: up}
            {go: north, by: 1100, to: tee, name: B, branch: up}
            {go: north, by: 1200, to: tee, name: C, branch: up}
            {go: north, by: 1300, to: tee, name: D, branch: up}
            {go: north, by: 1400, to: tee, name: E, branch: up}
            {go: north, by: 1500, to: flange, at: {north: 8860, east: 800}}
            """), "90 north");
        Assert.Contains("main, leg 3: 910 for 1000", finding.Remedy, StringComparison.Ordinal);
        Assert.Contains("main, leg 8: 1410 for 1500", finding.Remedy, StringComparison.Ordinal);
        Assert.DoesNotContain("leg 2:", finding.Remedy, StringComparison.Ordinal);
    }

    [Fact]
    public void A_fall_written_for_a_rise_is_named()
    {
        // 40 m at 1 in 100 the wrong way round: 80 too low. A hundredth of the level length is the rise (drawing practice, format of the file).
        var finding = Desk.Finds("elevation-does-not-close", "runs[0].legs[1]", Desk.Drawing("""
            {go: north, by: 4000, fall: "1:100", to: elbow}
            {go: up, by: 900, to: flange, at: {north: 4000, up: 940}}
            """));
        Assert.Contains("main, leg 1: a rise in place of a fall", finding.Remedy, StringComparison.Ordinal);
    }

    [Fact]
    public void A_component_of_a_skew_leg_is_named()
    {
        var finding = Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
            {go: {north: 690, up: 960}, to: elbow}
            {go: up, by: 900, to: flange, at: {north: 960, up: 1860}}
            """));
        Assert.Contains("main, leg 1: north 960 for 690: digits changed over", finding.Remedy, StringComparison.Ordinal);
    }

    [Fact]
    public void Two_wrong_figures_are_said_to_be_more_than_one()
    {
        var finding = Desk.Finds(Rule, "runs[0].legs[2]", Desk.Drawing("""
            {go: up, by: 1450, to: elbow}
            {go: north, by: 3200, to: elbow}
            {go: east, by: 1000, to: flange, at: {north: 3110, east: 960, up: 1450}}
            """));
        Assert.Contains("No single figure", finding.Remedy, StringComparison.Ordinal);
    }
}
