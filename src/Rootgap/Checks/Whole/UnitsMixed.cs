using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.Checks;

internal sealed class UnitsMixed : Rule
{
    public override string Name => "units-mixed";
    public override Severity Severity => Severity.Note;
    public override string Says => "A leg is dimensioned in inches in a drawing in millimetres, or the other way round; a warning, told once, where nearly all legs are.";
    public override string Why => "57 and 57 in. differ by 25.4 times, and a figure taken over from another sheet is where it happens (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var drawing = fabrication.Route.Drawing;
        var inches = drawing.Units == Units.Inches;
        var written = drawing.Runs.SelectMany(r => r.Legs).Where(l => l.By is not null).Select(l => l.Source.Text("by")).OfType<string>().ToList();
        var others = written.Count(t => inches ? IsMetric(t) : IsInches(t));
        if (others >= Enough && others > written.Count * Nearly)
        {
            yield return Found(drawing.Source, drawing.Source.Has("units") ? "units" : "drawing", $"The drawing is in {(inches ? "inches" : "millimetres")}, and {others} of its {written.Count} lengths are written in {(inches ? "millimetres or metres" : "feet and inches")}.",
                $"Write `units: {(inches ? "mm" : "in")}`, if the drawing is so: a figure without its unit, a gasket's or a stud's, is read 25.4 times off.", "Figures without a unit are read in the wrong one.", Severity.Warn);
            yield break;
        }

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

    private const int Enough = 3;

    private const double Nearly = 0.7;

    /// <summary>Whether a figure has its unit beside it.</summary>
    internal static bool HasUnit(string text) => IsInches(text) || IsMetric(text);

    private static bool IsInches(string text) => text.AsSpan().IndexOfAny("'\"′″") >= 0 || text.Contains("in", StringComparison.OrdinalIgnoreCase) || text.Contains("ft", StringComparison.OrdinalIgnoreCase);

    private static bool IsMetric(string text) => text.EndsWith('m');
}
