namespace Rootgap.Tests.Checks;

public class StudGradesMixedTest
{
    private const string Rule = "stud-grades-mixed";

    private static string Line(string a, string b, string c) => Desk.Drawing("""
        {go: up, by: 1450, to: tee, name: T, branch: east, branch size: 6}
        {go: up, by: 1450, to: reducer, size: 8}
        {go: up, by: 1450, to: flange}
        """, more: $$"""
        materials:
          - {item: 1, what: stud bolt, size: 7/8, length: 120, material: {{a}}, quantity: 12}
          - {item: 2, what: stud bolt, size: 3/4, length: 100, material: {{b}}, quantity: 8}
          - {item: 3, what: stud bolt, size: 3/4, length: 110, material: {{c}}, quantity: 8}
        """, line: "size: 12, schedule: STD, class: 150") + """

          - run: side
            start: {from: T}
            legs:
              - {go: east, by: 900, to: flange}
        """;

    [Fact]
    public void One_row_of_another_grade_is_found() => Desk.Finds(Rule, "materials[2]", Line("A193-B8M", "A193-B8M", "A193-B7"), "A193-B7", "A193-B8M");

    [Theory]
    [InlineData("A193-B7", "A193-B7", "")]
    [InlineData("A193-B8M", "A193-B7", "note")]
    public void Of_two_rows_two_grades_are_a_note(string a, string b, string told) => Desk.Tells(Rule, told, Desk.Drawing("""
        {go: north, by: 1450, to: reducer, size: 4}
        {go: north, by: 1450, to: flange}
        """, more: $$"""
        materials:
          - {item: 1, what: stud bolt, size: 3/4, length: 100, material: {{a}}, quantity: 8}
          - {item: 2, what: stud bolt, size: 5/8, length: 90, material: {{b}}, quantity: 8}
        """));

    [Fact]
    public void One_grade_written_two_ways_is_silent() => Desk.IsSilent(Rule, Line("A193-B8M", "A193 B8M", "A193-B8M"));

    [Fact]
    public void Each_grade_twice_is_no_slip() => Desk.IsSilent(Rule, Line("A193-B8M", "A193-B7", "A320-L7"));
}
