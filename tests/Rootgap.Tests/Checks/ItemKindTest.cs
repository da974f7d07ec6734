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

    // ASME B16.9 and B16.11: a socket-weld elbow has another centre to end than a butt-welding one.
    [Fact]
    public void A_socket_weld_elbow_listed_for_a_butt_welding_one_is_found() => Desk.Finds("item-is-another-part", "materials[0]", Desk.Drawing("""
        {go: east, by: 1500, to: elbow, item: 1}
        {go: north, by: 900, to: flange}
        """, more: """
        materials:
          - {item: 1, what: elbow 90 SW, size: 2, class: 3000, quantity: 1}
        """, line: "size: 2, schedule: 40, class: 150"), "elbow 90 SW listed");
}
