using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Routes;
using Rootgap.Standards;

namespace Rootgap.Checks;

/// <summary>A material that is brittle at the design temperature.</summary>
internal sealed class ColdServiceMaterial : Rule
{
    public override string Name => "cold-service-material";
    public override Severity Severity => Severity.Warn;
    public override string Says => "The design temperature is below -29 C, and a carbon or low-alloy steel is drawn or listed that is not made for the cold, or not for so much of it.";
    public override string Why => "ASME B31.3 323.2.2: ordinary carbon steel below -29 C wants an impact test; A333, A350, A420 and austenitic stainless are used there, each to its own minimum of Table A-1: -46 C, of 3 1/2 nickel -101, of 8 and 9 nickel -196 (docs/tables.md says which of them stand from memory). The engineer decides.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var drawing = fabrication.Route.Drawing;
        if (ServiceFigures.Coldest(drawing.Service.DesignTemperature) is not { } celsius)
            yield break;
        foreach (var item in drawing.Materials)
        {
            if (IsBrittle(item.Material, celsius))
                yield return Found(item.Source, "material", Brittle(fabrication, item.Material, celsius), "Ask the engineer: the grade for low temperature, or an impact test.", "It can break without warning in the cold.");
        }

        HashSet<string> told = [];
        foreach (var pipe in fabrication.Route.Pipes)
        {
            var material = pipe.Line.Material;
            // What the list says otherwise of it is another rule's; that the drawing's own steel breaks is this one's.
            if ((pipe.Item is null || !IsBrittle(pipe.Item.Material, celsius)) && IsBrittle(material, celsius) && told.Add(material))
                yield return Found(fabrication.Route.RowOf(pipe.Run, pipe.FirstLeg), "material", Brittle(fabrication, material, celsius), "Ask the engineer: the grade for low temperature, or an impact test.", "It can break without warning in the cold.");
        }
    }

    private static string Brittle(Fabrication fabrication, string material, double celsius) => Say(fabrication.Units, $"{material} at {celsius:celsius}.");

    private static bool IsBrittle(string material, double celsius) => Metals.ColdestOf(material) is { } coldest && celsius < coldest - Written;

    /// <summary>A temperature written in the other unit is rounded, C.</summary>
    private const double Written = 0.5;
}
