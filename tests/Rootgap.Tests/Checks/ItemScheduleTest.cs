namespace Rootgap.Tests.Checks;

public class ItemScheduleTest
{
    private const string Rule = "item-schedule-mismatch";

    [Fact]
    public void Pipe_listed_in_another_schedule_is_found() => Desk.Finds(Rule, "materials[0]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: flange}
        """, more: """
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 80, quantity: 6 m}
          - {item: 2, what: elbow 90 LR, size: 6, schedule: 40, quantity: 1}
          - {item: 3, what: flange WN RF, size: 6, class: 150, bore: 40, quantity: 2}
          - {item: 4, what: gasket spiral wound, size: 6, class: 150, quantity: 2}
          - {item: 5, what: stud bolt, size: 3/4, length: 100, quantity: 16}
        """), "schedule 80 listed", "40 drawn");

    [Fact]
    public void One_leg_against_the_list_and_the_line_is_found_at_the_leg() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, schedule: 80, to: flange}
        """, more: """
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 40, quantity: 6 m}
          - {item: 2, what: elbow 90 LR, size: 6, schedule: 40, quantity: 1}
          - {item: 3, what: flange WN RF, size: 6, class: 150, bore: 40, quantity: 2}
          - {item: 4, what: gasket spiral wound, size: 6, class: 150, quantity: 2}
          - {item: 5, what: stud bolt, size: 3/4, length: 100, quantity: 16}
        """), "schedule 40 listed", "80 drawn");

    [Fact]
    public void A_guess_between_two_names_of_one_wall_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: flange}
        """, more: """
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 80, quantity: 6 m}
          - {item: 2, what: elbow 90 LR, size: 6, schedule: 40, quantity: 1}
          - {item: 3, what: flange WN RF, size: 6, class: 150, bore: 40, quantity: 2}
          - {item: 4, what: gasket spiral wound, size: 6, class: 150, quantity: 2}
          - {item: 5, what: stud bolt, size: 3/4, length: 100, quantity: 16}
          - {item: 6, what: pipe, size: 6, schedule: STD, quantity: 6 m}
        """));

    // ASME B36.10M: schedule 40 and STD are one wall at NPS 6.
    [Fact]
    public void The_same_wall_by_another_name_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: flange}
        """, more: """
        materials:
          - {item: 1, what: pipe, size: 6, schedule: STD, quantity: 6 m}
          - {item: 2, what: elbow 90 LR, size: 6, schedule: 40, quantity: 1}
          - {item: 3, what: flange WN RF, size: 6, class: 150, bore: 40, quantity: 2}
          - {item: 4, what: gasket spiral wound, size: 6, class: 150, quantity: 2}
          - {item: 5, what: stud bolt, size: 3/4, length: 100, quantity: 16}
        """));
}
