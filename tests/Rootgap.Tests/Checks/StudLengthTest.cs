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

    // ASME B16.5 table 7: NPS 3 class 150 takes 90 and NPS 2 takes 85, four of 5/8 each; an office that orders a step longer lists 95 and 90, and the row of 90 is still that of NPS 2.
    [Theory]
    [InlineData(95, 8, 90, 4, "")]
    [InlineData(90, 8, 85, 4, "")]
    [InlineData(95, 4, 90, 8, "")]
    [InlineData(115, 8, 90, 4, "stud-length")]
    public void Rows_of_a_longer_rounding_are_shared_out_by_length_and_number(int threes, int ofThree, int twos, int ofTwo, string told)
    {
        string[] rules = ["quantity-short", "item-not-used", "stud-length"];
        var found = Desk.Packet(Desk.Drawing("""
            {go: up, by: 1450, to: joint}
            {go: up, by: 1450, to: reducer, size: 2}
            {go: up, by: 1200, to: flange}
            """, more: $$"""
            materials:
              - {item: 1, what: pipe, size: 3, schedule: 40, quantity: 6 m}
              - {item: 2, what: pipe, size: 2, schedule: 40, quantity: 6 m}
              - {item: 3, what: reducer concentric, size: 3 x 2, schedule: 40, quantity: 1}
              - {item: 4, what: flange WN RF, size: 3, class: 150, bore: 40, quantity: 3}
              - {item: 5, what: flange WN RF, size: 2, class: 150, bore: 40, quantity: 1}
              - {item: 6, what: gasket spiral wound, size: 3, class: 150, quantity: 2}
              - {item: 7, what: gasket spiral wound, size: 2, class: 150, quantity: 1}
              - {item: 8, what: stud bolt, size: 5/8, length: {{threes}}, quantity: {{ofThree}}}
              - {item: 9, what: stud bolt, size: 5/8, length: {{twos}}, quantity: {{ofTwo}}}
            """, line: "size: 3, schedule: 40, class: 150")).Findings.Where(f => rules.Contains(f.Rule)).Select(f => f.Rule).Distinct();
        Assert.Equal(told, string.Join(' ', found));
    }

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

    // ASME B16.5 annex C with table 8 (lap-joint flange NPS 2 class 150: 19.1 thick, 5/8 studs) and B36.19M (schedule 10S: 2.77): 2 (19.1 + 3 + 15.9) + 3 + 2 x 2.77 + 1.5 = 86.0.
    [Theory]
    [InlineData(85, "")]
    [InlineData(90, "")]
    [InlineData(95, "")]
    [InlineData(80, "stop")]
    public void What_the_table_rounded_up_is_not_asked_for_twice_at_lap_joints(int length, string severity) => Desk.Tells(Rule, severity, Desk.Drawing("""
        {go: north, by: 1450, to: joint}
        {go: north, by: 1450, to: open}
        """, more: $$"""
        materials:
          - {item: 1, what: pipe, size: 2, schedule: 10S, quantity: 3 m}
          - {item: 2, what: flange LJ, size: 2, class: 150, quantity: 2}
          - {item: 3, what: gasket flat, size: 2, class: 150, quantity: 1}
          - {item: 4, what: stud bolt, size: 5/8, length: {{length}}, quantity: 4}
        """, line: "size: 2, schedule: 10S, class: 150, flange: LJ, material: A312-TP316L"));

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
