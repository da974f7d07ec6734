namespace Rootgap.Tests.Checks;

public class SmallFlangeKindTooLargeTest
{
    private const string Rule = "small-flange-kind-too-large";

    [Fact]
    public void A_threaded_flange_of_NPS_3_is_noted() => Desk.Finds(Rule, "runs[0].start", Desk.Drawing("""
        {go: up, by: 1450, to: flange}
        """, line: "size: 3, schedule: 80, class: 150, flange: TH"), "NPS 3");

    [Fact]
    public void A_threaded_flange_of_NPS_2_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: flange}
        """, line: "size: 2, schedule: 80, class: 150, flange: TH"));
}
