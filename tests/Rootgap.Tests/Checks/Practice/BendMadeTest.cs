using Rootgap.Findings;

namespace Rootgap.Tests.Checks;

public class BendMadeTest
{
    private static string Turn(string bend) =>
        Desk.Drawing($"{{go: north, by: 2000, to: {bend}}}\n{{go: east, by: 1500, to: open}}", "shop: {root gap: 3}", "size: 10, schedule: 40, class: 150, material: A106-B", "to: open");

    // ASME B31.3 304.2.3 (c): R1 = A / tan(cut) + D / 2, A = 25 mm for walls to 13 mm: 25 / tan 15 + 136.5 = 229.8.
    [Theory]
    [InlineData("mitred bend, cuts: 3, bend radius: 381", "matter of design", Severity.Note)]
    [InlineData("mitred bend, cuts: 3, bend radius: 220", "radius of 229.8", Severity.Warn)]
    [InlineData("mitred bend, cuts: 2, bend radius: 381", "matter of design", Severity.Note)]
    [InlineData("bend, bend radius: 600", "less than 3 nominal sizes", Severity.Warn)]
    public void What_is_the_engineer_s_is_said_and_what_the_code_does_not_allow_is_a_warning(string bend, string says, Severity severity) =>
        Assert.Equal(severity, Desk.Finds("bend-made-in-shop", "runs[0].legs[0]", Turn(bend), says).Severity);

    [Theory]
    [InlineData("bend, bend radius: 1270")]
    [InlineData("bend, bend radius: 762")]
    [InlineData("elbow")]
    public void A_wide_bend_and_an_elbow_are_silent(string bend) => Desk.IsSilent("bend-made-in-shop", Turn(bend));

    // Two cuts over a turn of 120 degrees are 30 degrees each: ASME B31.3 304.2.3 (a) holds to 22.5.
    [Fact]
    public void A_cut_over_22_5_degrees_is_said() => Desk.Finds("bend-made-in-shop", "runs[0].legs[0]",
        Desk.Drawing("{go: north, by: 2000, to: mitred bend, cuts: 2, bend radius: 381}\n{go: {south: 1, east: 1.7320508}, by: 2000, to: open}", line: "size: 10, schedule: 40, class: 150", start: "to: open"), "Over 22.5 degrees");
}
