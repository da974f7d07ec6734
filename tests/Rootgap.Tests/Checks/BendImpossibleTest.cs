namespace Rootgap.Tests.Checks;

public class BendImpossibleTest
{
    private const string Rule = "bend-impossible";

    private static string Bend(string bend, string more = "") => Desk.Drawing($$"""
        {go: north, by: 3000, to: {{bend}}}
        {go: east, by: 3000, to: flange}
        """, more);

    // ASME B36.10M: NPS 6 is 168.3 outside; its inner side turns on the radius less 84.15.
    [Theory]
    [InlineData("mitred bend, cuts: 3, bend radius: 30.5", "stop")]
    [InlineData("bend, bend radius: 84, straight: 100", "stop")]
    [InlineData("mitred bend, cuts: 3, bend radius: 305", "")]
    [InlineData("bend, bend radius: 457, straight: 100", "")]
    public void A_radius_within_its_own_pipe_is_a_stop(string bend, string told) => Desk.Tells(Rule, told, Bend(bend));

    [Fact]
    public void It_cannot_be_accepted() => Assert.Contains(Desk.Packet(Bend("bend, bend radius: 84, straight: 100", "accept: [{rule: bend-impossible, why: it is so}]")).Findings, f => f.Rule == Rule && f.AcceptedBecause is null);
}
