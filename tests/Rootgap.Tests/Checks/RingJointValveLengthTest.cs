namespace Rootgap.Tests.Checks;

public class RingJointValveLengthTest
{
    private const string Rule = "ring-joint-valve-length";

    [Fact]
    public void A_ring_joint_valve_with_the_tables_length_is_found() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: up, by: 1500, to: valve, kind: gate}
        {go: up, by: 1500, to: flange}
        """, line: "size: 6, schedule: 80, class: 600, facing: RTJ"), "ring-joint");

    [Fact]
    public void A_ring_joint_valve_with_its_own_length_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1500, to: valve, kind: gate, face to face: 562}
        {go: up, by: 1500, to: flange}
        """, line: "size: 6, schedule: 80, class: 600, facing: RTJ"));
}
