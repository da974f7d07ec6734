using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Routes;
using Rootgap.Standards;

namespace Rootgap.Checks;

/// <summary>A design temperature that a material is not used at.</summary>
internal sealed class HotServiceMaterial : Rule
{
    public override string Name => "hot-service-material";
    public override Severity Severity => Severity.Warn;
    public override string Says => "The design temperature is above 427 C with carbon steel, 593 C with carbon-molybdenum to 2 1/4 chrome steel, 649 C with 5 to 9 chrome steel or 816 C with austenitic stainless.";
    public override string Why => "ASME B31.3 Table A-1 and its notes: carbon steel turns to graphite above 427 C (800 F) in long use, and the tables of the others end there. docs/tables.md says which of the four limits stand from memory. Mostly a digit or a unit slipped. The engineer decides.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var route = fabrication.Route;
        var service = route.Drawing.Service;
        if (ServiceFigures.Celsius(service.DesignTemperature) is not { } celsius)
            yield break;
        var materials = route.Pipes.Select(p => p.Line.Material).Concat(route.Drawing.Materials.Where(m => m.Words.Ware is not (Ware.Gasket or Ware.StudBolt or Ware.Support or Ware.Other)).Select(m => m.Material));
        HashSet<string> told = [];
        foreach (var material in materials)
        {
            if (Metals.HottestOf(material) is { } most && celsius > most && told.Add(Metals.PNumber(material)!))
                yield return Found(service.Source, "design temperature", Say(fabrication.Units, $"{material} at {celsius:celsius}: above {most:celsius} it is not used without the engineer's word."), "Look whether a digit or the unit slipped, and ask the engineer.", "The metal ages, creeps and breaks in service.");
        }
    }
}
