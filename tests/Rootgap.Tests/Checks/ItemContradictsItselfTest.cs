namespace Rootgap.Tests.Checks;

public class ItemContradictsItselfTest
{
    private const string Rule = "item-contradicts-itself";

    [Fact]
    public void A_row_whose_words_and_column_differ_in_class_is_found() => Desk.Finds(Rule, "materials[2]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: flange}
        """, more: """
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 40, quantity: 6 m}
          - {item: 2, what: elbow 90 LR, size: 6, schedule: 40, quantity: 1}
          - {item: 3, what: flange WN RF class 300, size: 6, class: 150, quantity: 2}
          - {item: 4, what: gasket spiral wound, size: 6, class: 150, quantity: 2}
          - {item: 5, what: stud bolt, size: 3/4, length: 100, quantity: 16}
        """), "300", "150");

    [Fact]
    public void A_row_whose_words_and_column_agree_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: flange}
        """, more: """
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 40, quantity: 6 m}
          - {item: 2, what: elbow 90 LR, size: 6, schedule: 40, quantity: 1}
          - {item: 3, what: flange WN RF class 150, size: 6, class: 150, quantity: 2}
          - {item: 4, what: gasket spiral wound, size: 6, class: 150, quantity: 2}
          - {item: 5, what: stud bolt, size: 3/4, length: 100, quantity: 16}
        """));
}
