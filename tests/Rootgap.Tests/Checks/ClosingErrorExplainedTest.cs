namespace Rootgap.Tests.Checks;

public class ClosingErrorExplainedTest
{
    private const string Rule = "closing-error-explained";

    [Fact]
    public void Two_digits_changed_over_are_found_at_their_leg() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 2690, to: elbow}
        {go: east, by: 1700, to: elbow}
        {go: up, by: 900, to: flange, at: {east: 1700, north: 2960, up: 2350}}
        """), "2960", "2690", "digits");

    [Fact]
    public void One_slip_that_two_places_show_is_told_once_at_its_leg() => Desk.Finds(Rule, "runs[0].legs[0]", """
        drawing: TEST-1
        revision: 1
        line: {size: 6, schedule: 40, class: 150}
        runs:
          - run: main
            start: {to: flange, at: {up: 850}}
            legs:
              - {go: up, by: 7000, to: elbow}
              - {go: north, by: 2000, to: tee, name: T, branch: up}
              - {go: north, by: 1500, to: flange, at: {north: 3500, up: 1550}}
          - run: side
            start: {from: T}
            legs:
              - {go: up, by: 900, to: flange, at: {north: 2000, up: 2450}}
        """, "700", "ten times");

    [Fact]
    public void A_leg_turned_round_is_found() => Desk.Finds(Rule, "runs[0].legs[2]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 2690, to: elbow}
        {go: east, by: 1700, to: elbow}
        {go: up, by: 900, to: flange, at: {east: -1700, north: 2690, up: 2350}}
        """), "west");

    [Fact]
    public void A_start_stated_wrong_is_among_what_is_told() => Desk.Finds(Rule, "runs[0].start", """
        drawing: TEST-1
        revision: 1
        line: {size: 6, schedule: 40, class: 150}
        runs:
          - run: main
            start: {to: flange, at: {up: 150}}
            legs:
              - {go: up, by: 1450, to: flange, at: {up: 1450}}
        """, "up 0");

    [Fact]
    public void One_way_of_a_skew_leg_turned_round_is_found() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: {west: 420, up: 560}, to: elbow}
        {go: up, by: 900, to: flange, at: {east: 420, north: 0, up: 2910}}
        """), "420 east", "in place of west");

    [Fact]
    public void A_slope_that_is_left_out_is_found() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: north, by: 3000, fall: 1:100, to: weld}
        {go: north, by: 2500, to: weld}
        {go: north, by: 2000, fall: 1:100, to: flange, at: {north: 7500, up: -75}}
        """), "fall: 1:100");

    [Fact]
    public void A_slope_ten_times_off_is_found() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: north, by: 3000, fall: 1:250, to: weld}
        {go: north, by: 2500, fall: 1:25, to: weld}
        {go: north, by: 2000, fall: 1:250, to: flange, at: {north: 7500, up: -30}}
        """), "1:250", "1:25", "ten times");

    // NPS 6 168.3 and NPS 4 114.3 (ASME B36.10M): an eccentric reducer would step by 27 to its flat side.
    [Theory]
    [InlineData("up: -27", "bottom")]
    [InlineData("up: 27", "top")]
    public void An_eccentric_reducer_drawn_concentric_is_found(string up, string flat) => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing($$"""
        {go: north, by: 3000, to: elbow}
        {go: east, by: 2500, to: reducer, size: 4}
        {go: east, by: 2000, to: elbow}
        {go: north, by: 2000, to: flange, at: {east: 4500, {{up}}, north: 5000} }
        """), "eccentric", "flat side " + flat);

    [Fact]
    public void Digits_changed_over_before_a_fraction_of_an_inch_are_seen() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: up, by: 60, to: elbow}
        {go: north, by: 34.5, to: elbow}
        {go: east, by: 70, to: elbow}
        {go: up, by: 40, to: flange, at: {east: 70, north: 43.5, up: 100}}
        """, "units: in"), "3'-7 1/2\"", "digits changed over");

    // The middle line steps by half the difference of the outside diameters: NPS 6 168.3 and NPS 4 114.3 (ASME B36.10M), 27 to the flat side.
    [Fact]
    public void A_flat_side_the_other_way_is_found() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: north, by: 3000, to: elbow}
        {go: east, by: 2500, to: reducer, size: 4, kind: eccentric, flat: bottom}
        {go: east, by: 2000, to: elbow}
        {go: north, by: 2000, to: flange, at: {east: 4500, north: 5000, up: 27}}
        """), "flat side", "other way");

    [Fact]
    public void A_concentric_reducer_drawn_eccentric_is_found() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: north, by: 3000, to: elbow}
        {go: east, by: 2500, to: reducer, size: 4, kind: eccentric, flat: bottom}
        {go: east, by: 2000, to: elbow}
        {go: north, by: 2000, to: flange, at: {east: 4500, north: 5000, up: 0}}
        """), "concentric");

    [Fact]
    public void A_figure_ten_times_off_is_found() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 690, to: elbow}
        {go: east, by: 1700, to: elbow}
        {go: up, by: 900, to: flange, at: {east: 1700, north: 6900, up: 2350}}
        """), "6900", "ten times");

    [Fact]
    public void Legs_that_close_are_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 2690, to: elbow}
        {go: east, by: 1700, to: elbow}
        {go: up, by: 900, to: flange, at: {east: 1700, north: 2690, up: 2350}}
        """));

    [Fact]
    public void Digits_changed_over_in_a_stated_place_are_found_at_the_place_itself() => Desk.Finds(Rule, "runs[0].legs[3]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 2690, to: elbow}
        {go: east, by: 1750, to: elbow}
        {go: up, by: 900, to: flange, at: {east: 1570, north: 2690, up: 2350}}
        """), "east 1750 for east 1570", "digits");

    [Fact]
    public void East_and_north_changed_over_are_found_at_the_place_itself() => Desk.Finds(Rule, "runs[0].legs[3]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 2690, to: elbow}
        {go: east, by: 1700, to: elbow}
        {go: up, by: 900, to: flange, at: {east: 2690, north: 1700, up: 2350}}
        """), "the two changed over");

    [Theory]
    [InlineData("north: -3690", "south 3960 for", "north -3960 for north -3690: digits")]
    [InlineData("south: 3690", "north -3960", "south 3960 for south 3690: digits")]
    [InlineData("north: 3960", "direction", "north -3960 for north 3960: the sign")]
    [InlineData("south: -3960", "sign", "south 3960 for north 3960: the direction")]
    public void A_stated_place_is_told_in_the_words_that_it_is_written_in(string written, string not, string told)
    {
        var finding = Assert.Single(Desk.Packet(Desk.Drawing($$$"""
            {go: up, by: 1450, to: elbow}
            {go: south, by: 3960, to: elbow}
            {go: east, by: 1750, to: elbow}
            {go: up, by: 900, to: flange, at: {east: 1750, {{{written}}}, up: 2350}}
            """)).Findings, f => f.Rule == Rule && f.At.ToString() == "runs[0].legs[3]");
        Assert.Contains(told, finding.Message, StringComparison.Ordinal);
        Assert.DoesNotContain(not, finding.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void An_elevation_that_is_left_out_of_a_place_is_found() => Desk.Finds(Rule, "runs[0].legs[3]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 2690, to: elbow}
        {go: east, by: 1700, to: elbow}
        {go: up, by: 900, to: flange, at: {east: 1700, north: 2690}}
        """), "`up: 2350`", "left out");

    // What leads to the branch's end that closes is not doubted: of the main run only the leg after the tee is left.
    [Fact]
    public void What_another_place_proves_right_is_not_doubted()
    {
        var findings = Desk.Packet("""
            drawing: TEST-1
            revision: 1
            line: {size: 6, schedule: 40, class: 150}
            runs:
              - run: main
                start: {to: flange, at: {up: 850}}
                legs:
                  - {go: up, by: 1500, to: elbow}
                  - {go: north, by: 2000, to: tee, name: T, branch: up}
                  - {go: north, by: 1500, to: flange, at: {north: 3600, up: 2350}}
              - run: side
                start: {from: T}
                legs:
                  - {go: up, by: 900, to: flange, at: {north: 2000, up: 3250}}
            """).Findings.Where(f => f.Rule == Rule).ToList();
        Assert.Equal("runs[0].legs[2]", Assert.Single(findings).At.ToString());
        Assert.Contains("1600 here would close it", findings[0].Message, StringComparison.Ordinal);
    }
}
