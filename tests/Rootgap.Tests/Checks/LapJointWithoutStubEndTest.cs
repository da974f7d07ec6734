namespace Rootgap.Tests.Checks;

public class LapJointWithoutStubEndTest
{
    private const string Rule = "lap-joint-without-stub-end";

    [Fact]
    public void Lap_joint_flanges_without_stub_ends_in_the_list_are_found() => Desk.Finds(Rule, "runs[0].start", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: flange}
        """, more: """
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 40, quantity: 6 m}
          - {item: 2, what: elbow 90 LR, size: 6, schedule: 40, quantity: 1}
          - {item: 3, what: flange LJ, size: 6, class: 150, quantity: 2}
          - {item: 4, what: gasket spiral wound, size: 6, class: 150, quantity: 2}
          - {item: 5, what: stud bolt, size: 3/4, length: 100, quantity: 16}
        """, line: "size: 6, schedule: 40, class: 150, flange: LJ"), "stub end");

    [Fact]
    public void Lap_joint_flanges_with_their_stub_ends_are_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: flange}
        """, more: """
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 40, quantity: 6 m}
          - {item: 2, what: elbow 90 LR, size: 6, schedule: 40, quantity: 1}
          - {item: 3, what: flange LJ, size: 6, class: 150, quantity: 2}
          - {item: 4, what: gasket spiral wound, size: 6, class: 150, quantity: 2}
          - {item: 5, what: stud bolt, size: 3/4, length: 100, quantity: 16}
          - {item: 6, what: stub end, size: 6, schedule: 40, quantity: 2}
        """, line: "size: 6, schedule: 40, class: 150, flange: LJ"));

    [Fact]
    public void A_drawing_without_a_list_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: flange}
        """, line: "size: 6, schedule: 40, class: 150, flange: LJ"));
}
