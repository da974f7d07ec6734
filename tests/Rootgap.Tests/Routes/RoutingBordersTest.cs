using Rootgap.Tests.Checks;

namespace Rootgap.Tests.Routes;

/// <summary>Figures of placing that hang on an angle or a border, worked out beside each; sizes by ASME B36.10M and B16.9.</summary>
public class RoutingBordersTest
{
    private static string Leaning(string branch, double by = 1000, string size = "3") => Desk.Drawing($$"""
        {go: east, by: 1000, to: weld}
        {go: east, by: {{by}}, to: stub-in, name: A, size: {{size}}, branch: {{branch}}}
        {go: east, by: 1500, to: open}
        """, line: "size: 8, schedule: 40, class: 150", start: "to: open") + $$"""

              - {run: branch, start: {from: A}, legs: [{go: {{branch}}, by: 600, to: open}]}
            """;

    // At 60 degrees its middle comes out of the header (219.1) by 109.55 / tan 60 = 63.2 the way it leans, and half its hole is 44.45 / sin 60 = 51.3 long: 150 - 63.2 - 51.3 = 35.4 are left beside the weld.
    [Theory]
    [InlineData("{west: 500, up: 866}", "35.4 from")]
    [InlineData("{east: 500, up: 866}", "")]
    public void A_leaning_branch_comes_out_of_its_header_the_way_it_leans(string branch, string says)
    {
        if (says.Length > 0)
            Desk.Finds("branch-near-weld", "", Leaning(branch, 150), says);
        else
            Desk.IsSilent("branch-near-weld", Leaning(branch, 150));
    }

    // Half of 88.9 over the tangent of 60: 25.7 shorter in the throat.
    [Fact]
    public void A_leaning_saddle_is_shorter_in_its_throat() =>
        Assert.Contains("saddle at 60 degrees, cut by its template; over its outside the throat is 25.7 shorter", Desk.Packet(Leaning("{east: 500, up: 866}")).Fabrication!.Cuts[^1].AtStart.Says, StringComparison.Ordinal);

    // tan 18 = 0.325, tan 22 = 0.404: laterals lean by 30 and more; ASME B31.3 304.3.3 has its rule down to 45.
    [Theory]
    [InlineData("{up: 1000, east: 325}", "warn")]
    [InlineData("{up: 1000, east: 404}", "")]
    [InlineData("{up: 1000, east: 990}", "")]
    [InlineData("{up: 1000, east: 1020}", "warn")]
    public void A_branch_leans_between_20_degrees_and_45(string branch, string told) => Desk.Tells("branch-not-square", told, Leaning(branch));

    [Theory]
    [InlineData(95, true)]
    [InlineData(105, false)]
    public void What_misses_by_less_than_100_may_be_a_survey(int off, bool isOffered) => Assert.Equal(isOffered,
        Desk.Finds("does-not-close", "", Desk.Drawing($"{{go: north, by: 1000, to: flange, at: {{north: {1000 + off}, up: 0}}}}")).Remedy.Contains("surveyed", StringComparison.Ordinal));

    // Two elbows of 38, two root gaps of 3.2 and the nipple.
    [Fact]
    public void A_nipple_between_two_welds_has_a_gap_at_each_end() =>
        Assert.Equal(38 + 3.2 + 100 + 3.2 + 38, Desk.Packet(Desk.Drawing("{go: east, by: 500, to: elbow}\n{go: north, by: makeup, nipple: 100, to: elbow}\n{go: up, by: 500, to: open}", line: "size: 1, schedule: 40, class: 150", start: "to: open")).Fabrication!.Route.Runs[0].Distances[1], 0.01);

    // NPS 1: 3.38 in schedule 40 and STD, 4.55 in 80.
    [Theory]
    [InlineData("80", "schedule 80 listed, 40 drawn")]
    [InlineData("STD", "")]
    public void Two_schedules_are_one_where_their_wall_is(string listed, string says) => Assert.Equal(says, string.Join("; ", Desk.Packet(Desk.Drawing("{go: east, by: 500, to: open}",
        $"materials: [{{item: 1, what: pipe, size: 1, schedule: {listed}, quantity: 1 m}}]", "size: 1, schedule: 40, class: 150", "to: open")).Fabrication!.Materials[0].Disagreements));

    // arctan 0.035 = 2.0 degrees, arctan 0.07 = 4.0: a weld takes up three.
    [Theory]
    [InlineData("{up: 1000, east: 35}", "saddle, cut by its template")]
    [InlineData("{up: 1000, east: 70}", "saddle at 86 degrees")]
    public void A_branch_within_three_degrees_is_square(string branch, string says) =>
        Assert.StartsWith(says, Desk.Packet(Leaning(branch)).Fabrication!.Cuts[^1].AtStart.Says, StringComparison.Ordinal);

    // arctan 0.08 = 4.6 degrees, arctan 0.095 = 5.4: up to five a face counts as upright.
    [Theory]
    [InlineData(80, "")]
    [InlineData(95, "warn")]
    public void A_face_within_five_degrees_is_upright(int up, string told) => Desk.Tells("hole-line-unstated", told, Desk.Drawing($"{{go: {{north: 1000, up: {up}}}, by: 1500, to: flange}}", start: "to: open"));

    // ASME B16.9: a 45 degree elbow NPS 3/4 is 19 from centre to end on a radius of 38: its arc of 29.85 begins 38 tan 22.5 = 15.74 from the centre, and 3.26 are straight at each end.
    [Fact]
    public void A_short_elbow_is_painted_along_its_arc_and_its_straight_ends()
    {
        var spool = Desk.Packet(Desk.Drawing("{go: north, by: 300, to: elbow}\n{go: {north: 1000, east: 1000}, by: 300, to: open}", line: "size: 3/4, schedule: 40, class: 150", start: "to: open")).Fabrication!.Spools.Single();
        Assert.Equal(Math.PI * 26.7 * ((2 * (300 - 19 - 3.2)) + 29.85 + (2 * 3.26)), spool.PaintArea, 20.0);
    }

    // ASME B16.5: a blind NPS 6 class 150 is a plate of 280 by 25.9 (2 of it the raised face) with eight holes of 22.2: pi/4 25.9 (280^2 - 8 x 22.2^2) 7.85e-6 = 11.9 kg, half its thickness behind its face.
    [Fact]
    public void A_blind_weighs_its_plate_less_its_holes()
    {
        var blind = Desk.Packet(Desk.Drawing("{go: north, by: 1500, to: flange, blinded: yes}", start: "to: open")).Fabrication!.Route.Components.OfType<Rootgap.Routes.BlindFlange>().Single();
        Assert.Equal(11.9, blind.Mass!.Kg, 0.05);
        Assert.Equal(25.9 / 2, blind.Contact.At.To(blind.Centre), 0.06);
        Assert.True(blind.Centre.Y > blind.Contact.At.Y);
    }

    // ASME B16.9: a cap NPS 6 is 89 long up to a wall of 10.92, and 102 above it; extra strong is 10.97 and goes with the shorter one.
    [Theory]
    [InlineData("XS", 89)]
    [InlineData("{wall: 11.0}", 89)]
    [InlineData("{wall: 11.1}", 102)]
    [InlineData("160", 102)]
    public void A_cap_is_longer_over_its_limiting_wall(string schedule, double length) =>
        Assert.Equal(500 - length - 3.2, Desk.Packet(Desk.Drawing("{go: north, by: 500, to: cap}", line: $"size: 6, schedule: {schedule}, class: 150", start: "to: open")).Fabrication!.Cuts.Single().Length, 0.1);

    // ASME B16.11, NPS 1 class 3000: 12.5 between the bottoms of a coupling's sockets and 12.5 of depth in each.
    [Fact]
    public void A_coupling_is_as_long_as_its_two_sockets_and_what_lies_between() => Assert.Equal(37.5, Desk.Packet(Desk.Drawing("{go: north, by: 500, to: coupling}\n{go: north, by: 500, to: open, ends: plain}",
        line: "size: 1, schedule: 80, class: 150, ends: socket, fitting class: 3000", start: "to: open, ends: plain")).Fabrication!.Route.Components.Single().Path, 0.01);
}
