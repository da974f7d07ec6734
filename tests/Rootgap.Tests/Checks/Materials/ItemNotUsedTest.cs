namespace Rootgap.Tests.Checks;

public class ItemNotUsedTest
{
    private const string Rule = "item-not-used";

    [Fact]
    public void A_row_that_nothing_uses_is_found() => Desk.Finds(Rule, "materials[3]", Lists.With("{item: 4, what: stud bolt", "{item: 5, what: elbow 90 LR, size: 6, schedule: 40, quantity: 1}\n  - {item: 4, what: stud bolt"), "Item 5");

    [Theory]
    [InlineData("bend 90", "note")]
    [InlineData("elbow 90 LR", "warn")]
    public void A_bend_made_of_pipe_that_has_a_row_of_its_own_is_a_note(string what, string severity) => Desk.Tells(Rule, severity, Desk.Drawing("""
        {go: north, by: 2000, to: bend, bend radius: 762}
        {go: east, by: 1500, to: open}
        """, $$"""
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 40, quantity: 4 m}
          - {item: 2, what: {{what}}, size: 6, schedule: 40, quantity: 1}
        """, start: "to: open"));

    [Fact]
    public void A_complete_list_is_silent() => Desk.IsSilent(Rule, Desk.Drawing(Lists.Leg, Lists.Straight, Lists.Line));

    [Fact]
    public void A_second_row_of_the_same_thing_is_silent() => Desk.IsSilent(Rule, Lists.With("{item: 4, what: stud bolt", "{item: 5, what: gasket spiral wound, size: 6, class: 150, quantity: 1}\n  - {item: 4, what: stud bolt"));
}
