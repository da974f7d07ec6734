using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Routes;
using Rootgap.Standards;

namespace Rootgap.Checks;

/// <summary>A material that is brittle at the design temperature.</summary>
internal sealed class ColdServiceMaterial : Rule
{
    private const double CarbonLeast = -29;

    /// <summary>What is made for the cold, and what does not turn brittle there.</summary>
    private static readonly string[] MadeForCold = ["A333", "A334", "A350", "A352", "A420", "A320", "A671CC", "A671CF", "A672", "A516"];

    public override string Name => "cold-service-material";
    public override Severity Severity => Severity.Warn;
    public override string Says => "The design temperature is below -29 C, and a carbon or low-alloy steel is drawn or listed that is not made for the cold, or not for so much of it.";
    public override string Why => "ASME B31.3 323.2.2: ordinary carbon steel below -29 C wants an impact test; A333, A350, A420 and austenitic stainless are used there, each to its own minimum of Table A-1, which stands here from memory: -46 C, of 3 1/2 nickel -101, of 8 and 9 nickel -196. The engineer decides.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var drawing = fabrication.Route.Drawing;
        if (ServiceFigures.Celsius(drawing.Service.DesignTemperature) is not { } celsius || celsius >= CarbonLeast)
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
            if (pipe.Item is null && IsBrittle(material, celsius) && told.Add(material))
                yield return Found(fabrication.Route.RowOf(pipe.Run, pipe.FirstLeg), "material", Brittle(fabrication, material, celsius), "Ask the engineer: the grade for low temperature, or an impact test.", "It can break without warning in the cold.");
        }
    }

    private static string Brittle(Fabrication fabrication, string material, double celsius) => Say(fabrication.Units, $"{material} at {celsius:celsius}.");

    /// <summary>How cold the grades made for the cold may be, C (ASME B31.3 Table A-1, minimum temperature; from memory): 3 1/2 nickel, 9 nickel, the others.</summary>
    private static double Floor(string plain) =>
        new[] { "A3333", "A350LF3", "A420WPL3" }.Any(g => plain.StartsWith(g, StringComparison.Ordinal)) ? -101
        : new[] { "A3338", "A420WPL8" }.Any(g => plain.StartsWith(g, StringComparison.Ordinal)) ? -196
        : -46;

    private static bool IsBrittle(string material, double celsius)
    {
        var plain = Metals.Plain(material);
        return Metals.PNumber(material) is "1" or "3" or "4" or "5A" or "5B" or "15E" or "9A" or "9B" or "11A" && (!MadeForCold.Any(m => plain.StartsWith(m, StringComparison.Ordinal) || plain.StartsWith("S" + m, StringComparison.Ordinal)) || celsius < Floor(plain.TrimStart('S')) - 0.5);
    }
}
