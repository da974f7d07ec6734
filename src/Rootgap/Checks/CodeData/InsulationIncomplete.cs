using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

/// <summary>Line data that speak of insulation and leave half of it out.</summary>
internal sealed class InsulationIncomplete : Rule
{
    public override string Name => "insulation-incomplete";
    public override Severity Severity => Severity.Warn;
    public override string Says => "The line is traced and no insulation is named, insulation has a thickness and no kind, or the office's line data of a line over 60 C say nothing of insulation.";
    public override string Why => "Tracing warms nothing without insulation over it, shoes and clearances go by the insulation, and what is hotter than 60 C burns who touches it (common practice).";

    /// <summary>What is touched without harm, C (common practice).</summary>
    private const double Touched = 60;

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var service = fabrication.Route.Drawing.Service;
        if (service.Insulation.Length > 0)
            yield break;
        if (service.InsulationThickness is { } thick)
            yield return Found(service.Source, "insulation thickness", Say(fabrication.Units, $"Insulation is {thick:len} thick, and of what kind is not said."), "Add `insulation:` from the line list.");
        else if (service.Tracing.Length > 0 && !IsNone(service.Tracing))
            yield return Found(service.Source, "tracing", $"The line is traced ({service.Tracing}), and no insulation is named.", "Add `insulation:` and its thickness from the line list.");
        else if (service.LineData(fabrication.Units).Any(d => d.Key is not "line number") && ServiceFigures.Celsius(service.DesignTemperature) is > Touched and var hot)
            yield return Found(service.Source, "design temperature", Say(fabrication.Units, $"The line is {hot:celsius} hot, and its line data say nothing of insulation."), "Add `insulation:` from the line list; `insulation: none` where there is none.");
    }

    private static bool IsNone(string says) => says.StartsWith("no", StringComparison.OrdinalIgnoreCase);
}
