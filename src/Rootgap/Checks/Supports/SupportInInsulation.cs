using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

/// <summary>A shoe that is lower than the insulation of its pipe is thick.</summary>
internal sealed class SupportInInsulation : Rule
{
    public override string Name => "support-in-insulation";
    public override Severity Severity => Severity.Warn;
    public override string Says => "The height of a support is less than the thickness of the insulation, or that of a hanger no more than it.";
    public override string Why => "The steel under it lies in the insulation, which is cut away there and gets wet (common practice: a shoe is higher than the insulation is thick).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        if (fabrication.Route.Drawing.Service.InsulationThickness is not { } thick)
            yield break;
        foreach (var s in fabrication.Route.Supports)
        {
            // The rod of a hanger begins above the insulation.
            if (s.Drawn.Height is { } height && (s.Drawn.Kind is not (SupportKind.Hanger or SupportKind.Lug) ? height < thick : s.Drawn.Kind == SupportKind.Hanger && height <= thick))
                yield return Found(s.Source, "height", Say(fabrication.Units, $"{s.Tag} is {height:len} high, and the insulation is {thick:len} thick."), $"Ask for a higher {s.Name}.");
        }
    }
}
