namespace Rootgap.Tests.Checks;

public class StudsMissingTest
{
    private const string Rule = "studs-missing";

    // ASME B16.5: NPS 6 class 150 takes eight 3/4 studs, 100 long.
    [Fact]
    public void A_list_without_studs_is_found() => Desk.Finds(Rule, "runs[0].start", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: flange}
        """, more: """
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 40, quantity: 6 m}
          - {item: 2, what: elbow 90 LR, size: 6, schedule: 40, quantity: 1}
          - {item: 3, what: flange WN RF, size: 6, class: 150, bore: 40, quantity: 2}
          - {item: 4, what: gasket spiral wound, size: 6, class: 150, quantity: 2}
        """), "8 studs 3/4 x 100");

    [Fact]
    public void Studs_of_another_diameter_are_found_at_their_row() => Desk.Finds(Rule, "materials[4]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: flange}
        """, more: """
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 40, quantity: 6 m}
          - {item: 2, what: elbow 90 LR, size: 6, schedule: 40, quantity: 1}
          - {item: 3, what: flange WN RF, size: 6, class: 150, bore: 40, quantity: 2}
          - {item: 4, what: gasket spiral wound, size: 6, class: 150, quantity: 2}
          - {item: 5, what: stud bolt, size: 5/8, length: 100, quantity: 16}
        """), "5/8", "3/4");

    [Fact]
    public void A_list_of_what_is_welded_has_no_gaskets_and_no_studs() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: flange}
        """, more: """
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 40, quantity: 6 m}
          - {item: 2, what: elbow 90 LR, size: 6, schedule: 40, quantity: 1}
          - {item: 3, what: flange WN RF, size: 6, class: 150, bore: 40, quantity: 2}
        """));

    [Fact]
    public void A_list_with_the_studs_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: flange}
        """, more: """
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 40, quantity: 6 m}
          - {item: 2, what: elbow 90 LR, size: 6, schedule: 40, quantity: 1}
          - {item: 3, what: flange WN RF, size: 6, class: 150, bore: 40, quantity: 2}
          - {item: 4, what: gasket spiral wound, size: 6, class: 150, quantity: 2}
          - {item: 5, what: stud bolt, size: 3/4, length: 100, quantity: 16}
        """));

    [Fact]
    public void A_drawing_without_a_list_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: flange}
        """));

    // ASME B16.5: NPS 6 class 150 takes eight 3/4 studs.
    [Fact]
    public void Studs_of_another_diameter_are_found_where_those_of_the_right_one_are_too_few() => Desk.Finds(Rule, "materials[1]", Desk.Drawing("{go: north, by: 3200, to: flange}", more: """
        materials:
          - {item: 1, what: stud bolt, size: 3/4, length: 100, quantity: 8}
          - {item: 2, what: stud bolt, size: 5/8, length: 100, quantity: 8}
        """), "5/8", "3/4");
}
