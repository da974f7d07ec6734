using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.Checks;

internal sealed class UnitsMixed : Rule
{
    public override string Name => "units-mixed";
    public override Severity Severity => Severity.Note;
    public override string Says => "A leg is dimensioned in inches in a drawing in millimetres, or the other way round.";
    public override string Why => "57 and 57 in. differ by 25.4 times, and a figure taken over from another sheet is where it happens (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var drawing = fabrication.Route.Drawing;
        var inches = drawing.Units == Units.Inches;
        foreach (var run in drawing.Runs)
        {
            foreach (var leg in run.Legs)
            {
                if (leg.By is not { } by || leg.Source.Text("by") is not { } text || !(inches ? IsMetric(text) : IsInches(text)))
                    continue;
                yield return Found(leg.Source, "by",
                    FormattableString.Invariant($"{text} stands in a drawing in {(inches ? "inches" : "millimetres")}: it is {(inches ? by / LengthText.Inch : by):0.#} {(inches ? "in" : "mm")}."),
                    "See on the drawing that the unit is meant.", "The figure is read in the drawing's own unit, 25.4 times off.");
            }
        }
    }

    /// <summary>Whether a figure has its unit beside it.</summary>
    internal static bool HasUnit(string text) => IsInches(text) || IsMetric(text);

    private static bool IsInches(string text) => text.AsSpan().IndexOfAny("'\"′″") >= 0 || text.Contains("in", StringComparison.OrdinalIgnoreCase) || text.Contains("ft", StringComparison.OrdinalIgnoreCase);

    private static bool IsMetric(string text) => text.EndsWith('m');
}
