using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Standards;

namespace Rootgap.Checks;

/// <summary>Line data that speak of insulation and leave half of it out, or make it thinner or thicker than insulation is.</summary>
internal sealed class InsulationIncomplete : Rule
{
    public override string Name => "insulation-incomplete";
    public override Severity Severity => Severity.Warn;
    public override string Says => "The line is traced and no insulation is named, has no tracing and carries what sets when it cools, insulation has a kind and no thickness, a thickness and no kind, or one under 15 or over 300 mm; a line that is traced or over 100 C is said to have none, a note up to 200 C and for flare, relief and blow-down lines, or none is said to be so thick; or the office's line data of a line over 60 C say nothing of insulation, a note up to 100 C, for air and other gases, which a compressor warms, up to 200 C, and for such lines.";
    public override string Why => "Tracing warms nothing without insulation over it, shoes and clearances go by the insulation, and what is hotter than 60 C burns who touches it (common practice). Preformed insulation is 20 to 300 mm thick (from memory).";

    /// <summary>What is touched without harm, C (common practice).</summary>
    private const double Touched = 60;

    /// <summary>So hot a line is seldom left bare, C (common practice).</summary>
    private const double Bare = 100;

    /// <summary>Hotter than this a written "none" is doubted, C (common practice).</summary>
    private const double Scalding = 200;

    /// <summary>Thinner and thicker a digit slipped, mm (from memory).</summary>
    private const double Thin = 15;

    private const double Thick = 300;

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var service = fabrication.Route.Drawing.Service;
        if (service.InsulationThickness is (> 0 and < Thin) or > Thick)
            yield return Found(service.Source, "insulation thickness", Say(fabrication.Units, $"Insulation is {service.InsulationThickness.Value:len} thick: {Thin:len} to {Thick:len} is usual."), "Look whether a digit slipped.");
        if (IsNone(service.Tracing) && LineData.SetsWhenCold(service.Fluid))
            yield return Found(service.Source, "tracing", $"The line carries {service.Fluid}, which sets when it cools, and its tracing is {service.Tracing}.", "Look in the line list whether it is traced; if not, accept this with who says so.", "The line plugs at the first stop.");
        if (service.Insulation.Length > 0)
        {
            if (IsNone(service.Insulation))
            {
                if (service.InsulationThickness is > 0 and var left)
                    yield return Found(service.Source, "insulation thickness", Say(fabrication.Units, $"There is no insulation by the line data, and it is {left:len} thick."), "Look in the line list which of the two is right.");
                if (service.Tracing.Length > 0 && !IsNone(service.Tracing))
                    yield return Found(service.Source, "tracing", $"The line is traced ({service.Tracing}) and not insulated.", "Look in the line list which of the two is right.");
                else if (ServiceFigures.Celsius(service.DesignTemperature) is > Bare and var bare)
                    yield return Found(service.Source, "insulation", Say(fabrication.Units, $"The line is {bare:celsius} hot and not insulated."), "Look in the line list; if it is meant, accept this with who says so: what can be touched is guarded.", severity: bare > Scalding && !IsRelief(fabrication) ? null : Severity.Note);
            }

            // Some write the thickness behind the kind.
            if (service.InsulationThickness is null && !IsNone(service.Insulation) && !service.Insulation.Contains("protection", StringComparison.OrdinalIgnoreCase) && !service.Insulation.Any(char.IsAsciiDigit))
                yield return Found(service.Source, "insulation", $"Insulation is {service.Insulation}, and how thick is not said.", "Add `insulation thickness:` from the line list.");
            yield break;
        }

        if (service.InsulationThickness is { } thick)
            yield return Found(service.Source, "insulation thickness", Say(fabrication.Units, $"Insulation is {thick:len} thick, and of what kind is not said."), "Add `insulation:` from the line list.");
        else if (service.Tracing.Length > 0 && !IsNone(service.Tracing))
            yield return Found(service.Source, "tracing", $"The line is traced ({service.Tracing}), and no insulation is named.", "Add `insulation:` and its thickness from the line list.");
        else if (service.LineData(fabrication.Units).Any(d => d.Key is not "line number") && ServiceFigures.Celsius(service.DesignTemperature) is > Touched and var hot)
            yield return Found(service.Source, "design temperature", Say(fabrication.Units, $"The line is {hot:celsius} hot, and its line data say nothing of insulation."), "Add `insulation:` from the line list; `insulation: none` where there is none.", severity: hot > Bare && !IsRelief(fabrication) && !(hot <= Scalding && LineData.IsGas(service.Fluid)) ? null : Severity.Note);
    }

    /// <summary>Lines that are hot only while something is let off are mostly bare (common practice).</summary>
    private static bool IsRelief(Fabrication fabrication) =>
        Array.Exists(Relief, w => fabrication.Route.Drawing.Service.Fluid.Contains(w, StringComparison.OrdinalIgnoreCase) || fabrication.Route.Drawing.Title.Contains(w, StringComparison.OrdinalIgnoreCase));

    private static readonly string[] Relief = ["flare", "relief", "blowdown", "blow-down"];

    private static bool IsNone(string says) => says.StartsWith("no", StringComparison.OrdinalIgnoreCase);
}
