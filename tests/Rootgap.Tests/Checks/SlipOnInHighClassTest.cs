namespace Rootgap.Tests.Checks;

public class SlipOnInHighClassTest
{
    private const string Rule = "slip-on-in-high-class";

    [Fact]
    public void A_slip_on_flange_in_class_600_is_noted() => Desk.Finds(Rule, "runs[0].start", Desk.Drawing("""
        {go: up, by: 1450, to: flange}
        """, line: "size: 6, schedule: 40, class: 600, facing: RF, flange: SO"), "600");

    [Fact]
    public void A_slip_on_flange_in_class_300_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: flange}
        """, line: "size: 6, schedule: 40, class: 300, facing: RF, flange: SO"));
}
