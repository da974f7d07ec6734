namespace Rootgap.Tests.Checks;

public class StudLengthTest
{
    private const string Rule = "stud-length";

    // ASME B16.5: NPS 6 class 150 raised face, 100 mm.
    [Fact]
    public void Studs_too_short_are_found() => Desk.Finds(Rule, "materials[4]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: flange}
        """, more: """
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 40, quantity: 6 m}
          - {item: 2, what: elbow 90 LR, size: 6, schedule: 40, quantity: 1}
          - {item: 3, what: flange WN RF, size: 6, class: 150, bore: 40, quantity: 2}
          - {item: 4, what: gasket spiral wound, size: 6, class: 150, quantity: 2}
          - {item: 5, what: stud bolt, size: 3/4, length: 80, quantity: 16}
        """), "100 needed", "80 listed", "20 short");

    [Fact]
    public void A_row_of_studs_that_no_joint_takes_is_found_though_another_fits() => Desk.Finds(Rule, "materials[5]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: flange}
        """, more: """
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 40, quantity: 6 m}
          - {item: 2, what: elbow 90 LR, size: 6, schedule: 40, quantity: 1}
          - {item: 3, what: flange WN RF, size: 6, class: 150, bore: 40, quantity: 2}
          - {item: 4, what: gasket spiral wound, size: 6, class: 150, quantity: 2}
          - {item: 5, what: stud bolt, size: 3/4, length: 100, quantity: 16}
          - {item: 6, what: stud bolt, size: 3/4, length: 60, quantity: 4}
        """), "60 listed", "40 short");

    [Fact]
    public void Studs_too_long_are_found() => Desk.Finds(Rule, "materials[4]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: flange}
        """, more: """
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 40, quantity: 6 m}
          - {item: 2, what: elbow 90 LR, size: 6, schedule: 40, quantity: 1}
          - {item: 3, what: flange WN RF, size: 6, class: 150, bore: 40, quantity: 2}
          - {item: 4, what: gasket spiral wound, size: 6, class: 150, quantity: 2}
          - {item: 5, what: stud bolt, size: 3/4, length: 140, quantity: 16}
        """), "40 too long");

    private static string LapJoints(int length) => Desk.Drawing("""
        {go: up, by: 1450, to: joint}
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: flange}
        """, more: $$"""
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 40, quantity: 8 m}
          - {item: 2, what: elbow 90 LR, size: 6, schedule: 40, quantity: 1}
          - {item: 3, what: flange LJ, size: 6, class: 150, quantity: 4}
          - {item: 4, what: gasket spiral wound, size: 6, class: 150, quantity: 3}
          - {item: 5, what: stud bolt, size: 3/4, length: {{length}}, quantity: 24}
        """, line: "size: 6, schedule: 40, class: 150, flange: LJ");

    // ASME B16.5 table C: 100 for two raised faces of NPS 6 class 150; B16.9: a lap is at least the pipe's wall, 7.1 (B36.10M), and two of them lie between the flanges.
    [Fact]
    public void Lap_joints_take_studs_longer_by_their_laps()
    {
        Desk.Finds(Rule, "materials[4]", LapJoints(90), "short");
        Desk.IsSilent(Rule, LapJoints(115));
    }

    [Fact]
    public void Studs_one_step_longer_are_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: flange}
        """, more: """
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 40, quantity: 6 m}
          - {item: 2, what: elbow 90 LR, size: 6, schedule: 40, quantity: 1}
          - {item: 3, what: flange WN RF, size: 6, class: 150, bore: 40, quantity: 2}
          - {item: 4, what: gasket spiral wound, size: 6, class: 150, quantity: 2}
          - {item: 5, what: stud bolt, size: 3/4, length: 105, quantity: 16}
        """));
}
