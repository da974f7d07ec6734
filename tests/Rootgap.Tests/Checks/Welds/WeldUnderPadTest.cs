namespace Rootgap.Tests.Checks;

public class WeldUnderPadTest
{
    private const string Rule = "weld-under-pad";

    // NPS 2 is 60.3 outside (ASME B36.10M); common practice: a pad twice as wide as its branch.
    [Fact]
    public void A_weld_under_the_pad_is_found() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 280, to: stub-in, name: O1, branch: up, size: 2, pad: yes}
        {go: north, by: 1000, to: flange}
        """), "reaches 60.3", "49.4 from it");

    [Fact]
    public void A_weld_just_outside_the_pad_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 291, to: stub-in, name: O1, branch: up, size: 2, pad: yes}
        {go: north, by: 1000, to: flange}
        """));

    [Fact]
    public void A_stub_in_without_a_pad_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 280, to: stub-in, name: O1, branch: up, size: 2}
        {go: north, by: 1000, to: flange}
        """));
}
