namespace Rootgap.Tests.Checks;

public class ItemSizeTest
{
    private const string Rule = "item-size-mismatch";

    [Fact]
    public void An_elbow_whose_item_has_another_size_is_found() => Desk.Finds(Rule, "materials[1]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow, item: 2}
        {go: north, by: 3200, to: flange}
        """, more: """
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 40, quantity: 6 m}
          - {item: 2, what: elbow 90 LR, size: 4, schedule: 40, quantity: 1}
          - {item: 3, what: flange WN RF, size: 6, class: 150, bore: 40, quantity: 2}
          - {item: 4, what: gasket spiral wound, size: 6, class: 150, quantity: 2}
          - {item: 5, what: stud bolt, size: 3/4, length: 100, quantity: 16}
        """), "NPS 4 listed", "6 drawn");

    [Fact]
    public void An_elbow_whose_item_has_its_size_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow, item: 2}
        {go: north, by: 3200, to: flange}
        """, more: """
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 40, quantity: 6 m}
          - {item: 2, what: elbow 90 LR, size: 6, schedule: 40, quantity: 1}
          - {item: 3, what: flange WN RF, size: 6, class: 150, bore: 40, quantity: 2}
          - {item: 4, what: gasket spiral wound, size: 6, class: 150, quantity: 2}
          - {item: 5, what: stud bolt, size: 3/4, length: 100, quantity: 16}
        """));
}
