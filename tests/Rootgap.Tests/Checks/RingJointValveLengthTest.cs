using Rootgap.Routes;

namespace Rootgap.Tests.Checks;

public class RingJointValveLengthTest
{
    private const string Rule = "ring-joint-valve-length";

    [Fact]
    public void A_ring_joint_valve_whose_groove_the_tables_do_not_have_is_found() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: up, by: 1500, to: valve, kind: gate}
        {go: up, by: 1500, to: flange}
        """, line: "size: 1/2, schedule: 80, class: 150, facing: RTJ"), "ring-joint");

    // ASME B16.10 table 10 (from memory): over ring-joint faces gate valves NPS 6 class 300 are 419 (403), NPS 4 class 600 435 (432), NPS 1 class 1500 254 (254).
    [Theory]
    [InlineData("6", "300", 419)]
    [InlineData("4", "600", 435)]
    [InlineData("1", "1500", 254)]
    public void One_whose_groove_they_have_is_as_long_as_the_standard_says(string size, string @class, double length)
    {
        var yaml = Desk.Drawing("""
            {go: up, by: 1500, to: valve, kind: gate}
            {go: up, by: 1500, to: flange}
            """, line: $"size: {size}, schedule: 160, class: {@class}, facing: RTJ");
        Desk.IsSilent(Rule, yaml);
        Assert.Equal(length, Desk.Packet(yaml).Fabrication.Route.Components.OfType<Valve>().Single().Path, 1.0);
    }

    [Fact]
    public void A_ring_joint_valve_with_its_own_length_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1500, to: valve, kind: gate, face to face: 562}
        {go: up, by: 1500, to: flange}
        """, line: "size: 6, schedule: 80, class: 600, facing: RTJ"));
}
