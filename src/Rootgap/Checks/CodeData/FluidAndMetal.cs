using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Standards;

namespace Rootgap.Checks;

/// <summary>A fluid that attacks what the line is made of, or cracks its welds.</summary>
internal sealed class FluidAndMetal : Rule
{
    public override string Name => "fluid-and-metal";
    public override Severity Severity => Severity.Warn;
    public override string Says => "The line carries what attacks its metal at the design temperature, or what cracks welds of it that are not stress-relieved; what is lined is silent; or the list has a material that the fluid spoils.";
    public override string Why => "Caustic and amine crack carbon steel beside welds, acid and sea water eat it, bronze goes in ammonia (common practice; docs/tables.md has the few that stand here, from memory). Mostly the fluid or the treatment was copied from another line. The engineer decides.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var route = fabrication.Route;
        var service = route.Drawing.Service;
        if (service.Fluid.Length == 0)
            yield break;
        var metals = route.Pipes.Select(p => p.Material).Distinct(StringComparer.Ordinal).Select(m => (Material: m, P: Metals.PNumber(m))).ToList();
        // A lining keeps the fluid from the metal.
        var isLined = service.IsLined || IsSaidToBeLined(route.Drawing.Title) || IsSaidToBeLined(service.PipeClass);
        var celsius = ServiceFigures.Celsius(service.DesignTemperature);
        foreach (var limit in Fluids.LimitsOf(service.Fluid))
        {
            if (isLined || metals.Find(m => m.P == limit.PNumber) is not { P: not null } metal || (celsius ?? 20) < limit.Celsius || (limit.ByStressRelief && service.IsHeatTreated))
                continue;
            var at = celsius is { } hot ? Say(fabrication.Units, $" at {hot:celsius}") : "";
            yield return limit.ByStressRelief
                ? Found(service.Source, service.HeatTreatment.Length > 0 ? "heat treatment" : "fluid", $"{service.Fluid} in {metal.Material}{at}, and the welds are not stress-relieved.", "Ask the engineer; add `heat treatment:` from the line list.", "The line cracks beside its welds.")
                : Found(service.Source, "fluid", $"{service.Fluid} in {metal.Material}{at}.", "Look whether the fluid or the material is another line's, and ask the engineer; write `lining:` if the pipe is lined.", "The line is eaten from inside.", WeldOnGalvanised.IsGalvanised(route) ? Severity.Note : null);
        }

        foreach (var item in route.Drawing.Materials)
        {
            // Studs, the loose flange of a lap joint and supports are outside.
            if (item.Words.Ware is not (Ware.StudBolt or Ware.Support) && item.Words.Flange != FlangeKind.LapJoint && Fluids.SpoiledBy(service.Fluid, $"{item.What} {item.Material}") is { } word)
                yield return Found(item.Source, item.Material.Contains(word, StringComparison.OrdinalIgnoreCase) ? "material" : "what", $"Item {item.Item}, {item.What}, is of {word}, and the line carries {service.Fluid}.", "Ask the engineer for another material.", "It is eaten away.");
        }
    }

    private static bool IsSaidToBeLined(string text) =>
        text.Split([' ', ',', '-', '/', '(', ')'], StringSplitOptions.RemoveEmptyEntries).Any(w => w.Equals("lined", StringComparison.OrdinalIgnoreCase) || w.Equals("lining", StringComparison.OrdinalIgnoreCase));
}
