using System.Text.RegularExpressions;
using Rootgap.Checks;

namespace Rootgap.Tests.Checks;

/// <summary>What the desk check says is in the units of the drawing.</summary>
public partial class MessagesTest
{
    [GeneratedRegex("""\b\d{3,}(\.\d+)?\b(?!["'/])""")]
    private static partial Regex Millimetres();

    /// <summary>Lengths of a drawing in inches are below a thousand inches; three digits and more without a sign of inches or feet are millimetres, besides these words.</summary>
    [GeneratedRegex("""class \d+|schedule \d+|\d+ bar|\d+ kg|B\d+(\.\d+)?M?|[A-Z]+-?\d+|\d+ lines""")]
    private static partial Regex NoLengths();

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
