namespace Rootgap.Tests.Checks;

public class ItemNotListedTest
{
    private const string Rule = "item-not-listed";

    [Fact]
    public void A_missing_gasket_is_told_at_its_joint_by_its_own_rule() => Desk.IsSilent(Rule, Lists.With("  - {item: 3, what: gasket spiral wound, size: 6, class: 150, quantity: 2}", "  # none"));

    [Fact]
    public void Pipe_of_another_size_than_is_listed_is_found() => Desk.Finds(Rule, "runs[0].legs[0]", Lists.With("what: pipe, size: 6", "what: pipe, size: 8"), "Pipe NPS 6");

    [Fact]
    public void A_complete_list_is_silent() => Desk.IsSilent(Rule, Desk.Drawing(Lists.Leg, Lists.Straight, Lists.Line));

    [Fact]
    public void Without_a_list_it_is_silent() => Desk.IsSilent(Rule, Desk.Drawing(Lists.Leg));
}
