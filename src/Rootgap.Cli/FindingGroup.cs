using System.Globalization;
using Rootgap.Drawings;
using Rootgap.Findings;

namespace Rootgap.Cli;

/// <summary>Findings of one leg belong together, and so do those of the material list, the service and the shop.</summary>
internal static class FindingGroup
{
    public static string Title(RowPath path, Drawing drawing)
    {
        if (path.Run is { } r && r < drawing.Runs.Count)
        {
            var run = drawing.Runs[r];
            return path.Leg is { } l && l < run.Legs.Count ? string.Create(CultureInfo.InvariantCulture, $"Leg {l + 1} of \"{run.Name}\", to {run.Legs[l].To.Word}")
                : path.IsStart ? $"Start of \"{run.Name}\"" : $"Run \"{run.Name}\"";
        }

        return path.ToString() switch
        {
            "" => $"Drawing {drawing.Number}",
            "materials" => "Material list",
            "shop" => "Shop rules",
            "service" => "Service",
            "accept" => "Accepted findings",
            var other => other,
        };
    }
}
