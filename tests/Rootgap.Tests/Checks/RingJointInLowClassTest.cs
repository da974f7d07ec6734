namespace Rootgap.Tests.Checks;

public class RingJointInLowClassTest
{
    private const string Rule = "ring-joint-in-low-class";

    [Fact]
    public void A_ring_joint_in_class_150_is_noted() => Desk.Finds(Rule, "runs[0].start", Desk.Drawing("""
        {go: up, by: 1450, to: flange}
        """, line: "size: 6, schedule: 40, class: 150, facing: RTJ, flange: WN"), "150");

    [Fact]
    public void A_ring_joint_in_class_600_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: flange}
        """, line: "size: 6, schedule: 40, class: 600, facing: RTJ, flange: WN"));
}
