using Rootgap.Findings;

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

    private static string Line(string pipe, int elbows = 1) => Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: open}
        """, more: $$"""
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 40, quantity: {{pipe}}}
          - {item: 2, what: elbow 90 LR, size: 6, schedule: 40, quantity: {{elbows}}}
        """, start: "to: open");

    // 4.2 m of pipe are needed.
    [Fact]
    public void Metres_for_feet_are_warned_of() => Assert.Equal(Severity.Warn, Desk.Finds(Rule, "materials[0]", Line("14 m"), "over").Severity);

    [Fact]
    public void A_bar_where_less_is_needed_is_a_note() => Assert.Equal(Severity.Note, Desk.Finds(Rule, "materials[0]", Line("6 m"), "over").Severity);

    [Fact]
    public void Ten_elbows_for_one_are_warned_of_and_two_are_a_note()
    {
        Assert.Equal(Severity.Warn, Desk.Finds(Rule, "materials[1]", Line("4.5 m", elbows: 10)).Severity);
        Assert.Equal(Severity.Note, Desk.Finds(Rule, "materials[1]", Line("4.5 m", elbows: 2)).Severity);
    }
}
