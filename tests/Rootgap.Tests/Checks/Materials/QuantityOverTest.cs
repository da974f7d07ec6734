namespace Rootgap.Tests.Checks;

public class QuantityOverTest
{
    private const string Rule = "quantity-over";

    [Fact]
    public void One_gasket_too_many_is_noted() => Desk.Finds(Rule, "materials[2]", Lists.With("what: gasket spiral wound, size: 6, class: 150, quantity: 2", "what: gasket spiral wound, size: 6, class: 150, quantity: 3"), "1 over");

    [Fact]
    public void Two_metres_of_pipe_too_much_are_noted() => Desk.Finds(Rule, "materials[0]", Lists.With("0.9 m", "2.9 m"), "m over");

    [Fact]
    public void Just_enough_is_silent() => Desk.IsSilent(Rule, Desk.Drawing(Lists.Leg, Lists.Straight, Lists.Line));

    [Fact]
    public void Half_a_metre_of_pipe_more_is_silent() => Desk.IsSilent(Rule, Lists.With("0.9 m", "1.4 m"));
}
