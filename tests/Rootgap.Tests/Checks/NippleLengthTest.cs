using Rootgap.Findings;

namespace Rootgap.Tests.Checks;

public class NippleLengthTest
{
    [Theory]
    [InlineData("{go: north, by: 300, nipple: 100, to: elbow}", "nipple-length")]
    [InlineData("{go: north, by: 148, nipple: 100, to: elbow}", "")]
    public void A_nipple_that_does_not_fill_its_leg_is_a_stop(string leg, string rule)
    {
        var drawing = Desk.Drawing($"{{go: east, by: 500, to: elbow}}\n{leg}\n{{go: up, by: 500, to: open, ends: threaded}}", line: "size: 3/4, schedule: 80, class: 150, ends: threaded", start: "to: open, ends: plain");
        if (rule.Length > 0)
            Assert.Equal(Severity.Stop, Desk.Finds(rule, "runs[0].legs[1]", drawing, "long").Severity);
        else
            Desk.IsSilent("nipple-length", drawing);
    }
}
