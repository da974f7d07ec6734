namespace Rootgap.Tests.Checks;

public class SlopeLevelOrTrueTest
{
    private const string Rule = "slope-level-or-true";

    // 3000 x sqrt(1 + 0.1^2) = 3014.96
    [Fact]
    public void A_steep_fall_is_told_in_both_lengths() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: north, by: 3000, fall: 1:10, to: flange}
        """), "3000", "3015");

    // 3000 x (sqrt(1 + 0.01^2) - 1) = 0.15
    [Fact]
    public void A_gentle_fall_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 3000, fall: 1:100, to: flange}
        """));
}
