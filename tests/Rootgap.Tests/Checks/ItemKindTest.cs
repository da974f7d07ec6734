namespace Rootgap.Tests.Checks;

public class ItemKindTest
{
    private const string Rule = "item-is-another-part";

    [Fact]
    public void Short_radius_elbows_listed_for_long_ones_are_found() => Desk.Finds(Rule, "materials[1]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: flange}
        """, more: """
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 40, quantity: 6 m}
          - {item: 2, what: elbow 90 SR, size: 6, schedule: 40, quantity: 1}
          - {item: 3, what: flange WN RF, size: 6, class: 150, bore: 40, quantity: 2}
          - {item: 4, what: gasket spiral wound, size: 6, class: 150, quantity: 2}
          - {item: 5, what: stud bolt, size: 3/4, length: 100, quantity: 16}
        """), "SR listed", "LR drawn");

    [Fact]
    public void A_leg_that_names_a_short_radius_against_the_list_is_found_at_the_leg() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow, radius: short}
        {go: north, by: 3200, to: flange}
        """, more: """
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 40, quantity: 6 m}
          - {item: 2, what: elbow 90 LR, size: 6, schedule: 40, quantity: 1}
          - {item: 3, what: flange WN RF, size: 6, class: 150, bore: 40, quantity: 2}
          - {item: 4, what: gasket spiral wound, size: 6, class: 150, quantity: 2}
          - {item: 5, what: stud bolt, size: 3/4, length: 100, quantity: 16}
        """), "LR listed", "SR drawn");

    [Fact]
    public void Slip_on_flanges_listed_for_weld_necks_are_found() => Desk.Finds(Rule, "materials[2]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: flange}
        """, more: """
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 40, quantity: 6 m}
          - {item: 2, what: elbow 90 LR, size: 6, schedule: 40, quantity: 1}
          - {item: 3, what: flange SO RF, size: 6, class: 150, quantity: 2}
          - {item: 4, what: gasket spiral wound, size: 6, class: 150, quantity: 2}
          - {item: 5, what: stud bolt, size: 3/4, length: 100, quantity: 16}
        """), "SO", "WN");

    [Fact]
    public void An_elbow_that_names_no_radius_is_long() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: flange}
        """, more: """
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 40, quantity: 6 m}
          - {item: 2, what: elbow 90, size: 6, schedule: 40, quantity: 1}
          - {item: 3, what: flange WN RF, size: 6, class: 150, bore: 40, quantity: 2}
          - {item: 4, what: gasket spiral wound, size: 6, class: 150, quantity: 2}
          - {item: 5, what: stud bolt, size: 3/4, length: 100, quantity: 16}
        """));
}
