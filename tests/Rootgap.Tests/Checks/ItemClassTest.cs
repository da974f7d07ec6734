namespace Rootgap.Tests.Checks;

public class ItemClassTest
{
    private const string Rule = "class-mismatch";

    [Fact]
    public void Flanges_listed_in_another_class_are_found() => Desk.Finds(Rule, "materials[2]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: flange}
        """, more: """
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 40, quantity: 6 m}
          - {item: 2, what: elbow 90 LR, size: 6, schedule: 40, quantity: 1}
          - {item: 3, what: flange WN RF, size: 6, class: 300, quantity: 2}
          - {item: 4, what: gasket spiral wound, size: 6, class: 150, quantity: 2}
          - {item: 5, what: stud bolt, size: 3/4, length: 100, quantity: 16}
        """), "class 300 listed", "150 drawn");

    [Fact]
    public void A_gasket_listed_in_another_class_is_found() => Desk.Finds(Rule, "materials[3]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: flange}
        """, more: """
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 40, quantity: 6 m}
          - {item: 2, what: elbow 90 LR, size: 6, schedule: 40, quantity: 1}
          - {item: 3, what: flange WN RF, size: 6, class: 150, bore: 40, quantity: 2}
          - {item: 4, what: gasket spiral wound, size: 6, class: 300, quantity: 2}
          - {item: 5, what: stud bolt, size: 3/4, length: 100, quantity: 16}
        """), "class 300");

    [Fact]
    public void One_flange_against_the_list_and_the_line_is_found_at_its_leg() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: flange, class: 300}
        """, more: """
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 40, quantity: 6 m}
          - {item: 2, what: elbow 90 LR, size: 6, schedule: 40, quantity: 1}
          - {item: 3, what: flange WN RF, size: 6, class: 150, bore: 40, quantity: 2}
          - {item: 4, what: gasket spiral wound, size: 6, class: 150, quantity: 2}
          - {item: 5, what: stud bolt, size: 3/4, length: 100, quantity: 16}
        """), "class 150 listed", "300 drawn");

    [Fact]
    public void A_gasket_listed_for_two_classes_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: flange}
        """, more: """
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 40, quantity: 6 m}
          - {item: 2, what: elbow 90 LR, size: 6, schedule: 40, quantity: 1}
          - {item: 3, what: flange WN RF, size: 6, class: 150, bore: 40, quantity: 2}
          - {item: 4, what: gasket spiral wound, size: 6, class: 150/300, quantity: 2}
          - {item: 5, what: stud bolt, size: 3/4, length: 100, quantity: 16}
        """));

    [Fact]
    public void Two_classes_that_are_both_listed_are_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: flange, class: 300}
        """, more: """
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 40, quantity: 6 m}
          - {item: 2, what: elbow 90 LR, size: 6, schedule: 40, quantity: 1}
          - {item: 3, what: flange WN RF, size: 6, class: 150, bore: 40, quantity: 2}
          - {item: 4, what: gasket spiral wound, size: 6, class: 150, quantity: 2}
          - {item: 5, what: stud bolt, size: 3/4, length: 100, quantity: 16}
          - {item: 6, what: flange WN RF, size: 6, class: 300, quantity: 1}
          - {item: 7, what: gasket spiral wound, size: 6, class: 300, quantity: 1}
        """));
}
