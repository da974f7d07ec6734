using System.Text.RegularExpressions;
using Rootgap.Checks;

namespace Rootgap.Tests.Checks;

/// <summary>What the desk check says is in the units of the drawing.</summary>
public partial class MessagesTest
{
    [GeneratedRegex("""\b\d{3,}(\.\d+)?\b(?!["'/])""")]
    private static partial Regex Millimetres();

    /// <summary>Lengths of a drawing in inches are below a thousand inches; three digits and more without a sign of inches or feet are millimetres, besides these words.</summary>
    [GeneratedRegex("""class \d+|schedule \d+|\d+ psi|\d+ lb|\d+ F\b|B\d+(\.\d+)?M?|[A-Z]+-?\d+|\d+ lines in 100""")]
    private static partial Regex NoLengths();

    [GeneratedRegex("""\d (mm|m|kg|bar|MPa|C)\b""")]
    private static partial Regex Metric();

    // 400 psi at 900 F on class 150: ASME B16.5 Table 2-1.1 has 50 psi there. 1 kg is 2.2046 lb, 1 bar 14.504 psi.
    [Fact]
    public void A_drawing_in_inches_speaks_of_psi_pounds_and_fahrenheit()
    {
        var findings = DeskCheck.Of(Desk.Packet("""
            drawing: TEST-1
            units: in
            line: {size: 24, schedule: STD, class: 150, material: A105}
            service: {area: A1, design pressure: 400 psi, design temperature: 900 F, test pressure: 900 psi}
            shop: {envelope: {mass: 500}, vice limit: 1000}
            runs:
              - run: main
                start: {to: flange}
                legs:
                  - {go: north, by: 30', to: valve, kind: gate, mass: 6}
                  - {go: north, by: 10', to: elbow}
                  - {go: up, by: 20', to: flange}
            """).Fabrication);
        Assert.All(findings, f => Assert.False(Metric().IsMatch(f.Message) || Metric().IsMatch(f.Otherwise), $"{f.Rule}: {f.Message}"));
        string Of(string rule) => findings.First(f => f.Rule == rule).Message;
        Assert.Contains("400 psi; class 150 of A105 carries 50 psi at 900 F: 350 psi over", Of("design-pressure-over-class"), StringComparison.Ordinal);
        Assert.Contains("900 psi;", Of("test-pressure-over-flange"), StringComparison.Ordinal);
        Assert.Contains(" lb", Of("spool-over-mass"), StringComparison.Ordinal);
        Assert.Contains(" lb", Of("mass-unusual"), StringComparison.Ordinal);
        Assert.Contains("900 F hot", Of("insulation-incomplete"), StringComparison.Ordinal);
    }

    [Fact]
    public void A_drawing_in_inches_is_spoken_of_in_inches() => Gens.Sketches.Where(s => s.Units == Rootgap.Measure.Units.Inches).Holds(sketch =>
    {
        foreach (var finding in DeskCheck.Of(sketch.Packet().Fabrication))
        {
            foreach (var text in new[] { finding.Message, finding.Remedy, finding.Otherwise })
                Assert.False(Millimetres().IsMatch(NoLengths().Replace(text, "")), $"{finding.Rule}: {text}");
        }
    });
}
