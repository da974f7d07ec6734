namespace Rootgap.Tests.Checks;

public class SpoolHangsAskewTest
{
    private const string Rule = "spool-centre-off-pipe";

    [Fact]
    public void An_angle_whose_centre_of_mass_lies_in_the_open_is_found() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: north, by: 3000, to: elbow}
        {go: east, by: 3000, to: flange}
        """), "off its pipe");

    [Fact]
    public void A_straight_spool_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 3000, to: weld}
        {go: north, by: 3000, to: flange}
        """));

    [Fact]
    public void A_light_spool_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 3000, to: elbow}
        {go: east, by: 3000, to: flange}
        """, line: "size: 1, schedule: 40, class: 150"));
}
