namespace Rootgap.Tests.Checks;

public class GasketMissingTest
{
    private const string Rule = "gasket-missing";

    [Fact]
    public void A_list_without_a_gasket_for_an_end_flange_is_found() => Desk.Finds(Rule, "runs[0].start", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: flange}
        """, more: """
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 40, quantity: 6 m}
          - {item: 2, what: elbow 90 LR, size: 6, schedule: 40, quantity: 1}
          - {item: 3, what: flange WN RF, size: 6, class: 150, bore: 40, quantity: 2}
          - {item: 5, what: stud bolt, size: 3/4, length: 100, quantity: 16}
        """), "gasket", "NPS 6");

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
    public void A_list_with_the_gasket_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
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

    [Fact]
    public void A_neighbours_gasket_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: flange, bolting: by others}
        """, more: """
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 40, quantity: 6 m}
          - {item: 2, what: elbow 90 LR, size: 6, schedule: 40, quantity: 1}
          - {item: 3, what: flange WN RF, size: 6, class: 150, bore: 40, quantity: 2}
          - {item: 5, what: stud bolt, size: 3/4, length: 100, quantity: 16}
        """, start: "to: flange, bolting: by others"));
}
