using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Standards;

namespace Rootgap.Checks;

/// <summary>A material that nobody knows, and one that differs from it by two letters changed over or one letter.</summary>
internal sealed class MaterialMisspelt : Rule
{
    public override string Name => "material-misspelt";
    public override Severity Severity => Severity.Warn;
    public override string Says => "The material of a row of the list is in no table here, and two of its letters changed over make one that is.";
    public override string Why => "What is not understood is checked against nothing: the weld's metals, the flange's rating, the cold (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var item in fabrication.Route.Drawing.Materials)
        {
            if (item.Material.Length == 0 || item.Words.Ware is Ware.Gasket or Ware.StudBolt or Ware.Other or Ware.InLineItem or Ware.Support or Ware.Valve || Metals.PNumber(item.Material) is not null)
                continue;
            if (ChangedOver(item.Material) is { } meant)
                yield return Found(item.Source, "material", $"Item {item.Item}, {item.What}: {item.Material} is not known here; {meant} is.", $"Write {meant}, if it is meant.", "The wrong certificate is asked for, and the rules about its metal stay silent.");
        }
    }

    private static string? ChangedOver(string material)
    {
        for (var i = 0; i + 1 < material.Length; i++)
        {
            if (material[i] == material[i + 1] || !char.IsLetterOrDigit(material[i]) || !char.IsLetterOrDigit(material[i + 1]))
                continue;
            var other = string.Concat(material.AsSpan(0, i), material.AsSpan(i + 1, 1), material.AsSpan(i, 1), material.AsSpan(i + 2));
            if (Metals.PNumber(other) is not null)
                return other;
        }

        return null;
    }
}
