namespace Rootgap.Tests.Checks;

public class ItemNotUsedTest
{
    private const string Rule = "item-not-used";

    [Fact]
    public void A_row_that_nothing_uses_is_found() => Desk.Finds(Rule, "materials[3]", Lists.With("{item: 4, what: stud bolt", "{item: 5, what: elbow 90 LR, size: 6, schedule: 40, quantity: 1}\n  - {item: 4, what: stud bolt"), "Item 5");

    [Fact]
    public void A_complete_list_is_silent() => Desk.IsSilent(Rule, Desk.Drawing(Lists.Leg, Lists.Straight, Lists.Line));

    [Fact]
    public void A_second_row_of_the_same_thing_is_silent() => Desk.IsSilent(Rule, Lists.With("{item: 4, what: stud bolt", "{item: 5, what: gasket spiral wound, size: 6, class: 150, quantity: 1}\n  - {item: 4, what: stud bolt"));
}
