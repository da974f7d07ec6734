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
}
