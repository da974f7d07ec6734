using System.Globalization;
using Rootgap.Drawings;

namespace Rootgap.Cli;

/// <summary>Findings of one leg belong together, and so do those of the material list, the service and the shop.</summary>
internal static class FindingGroup
{
    /// <summary>The path of the leg, or of the block, in which a path lies: <c>runs[0].legs[2]</c>, <c>materials</c>.</summary>
    public static string PathOf(string at)
    {
        if (at.StartsWith("runs[", StringComparison.Ordinal))
        {
            var second = at.IndexOf('.', StringComparison.Ordinal);
            var third = second < 0 ? -1 : at.IndexOf('.', second + 1);
            return third < 0 ? at : at[..third];
        }

        var end = at.AsSpan().IndexOfAny('.', '[');
        return end < 0 ? at : at[..end];
    }

    public static string Title(string path, Drawing drawing)
    {
        if (path.StartsWith("runs[", StringComparison.Ordinal) && path.IndexOf(']', StringComparison.Ordinal) is > 5 and var close && int.TryParse(path.AsSpan(5, close - 5), NumberStyles.None, CultureInfo.InvariantCulture, out var r) && r < drawing.Runs.Count)
        {
            var run = drawing.Runs[r];
            var rest = path[(close + 1)..];
            if (rest.StartsWith(".legs[", StringComparison.Ordinal) && int.TryParse(rest.AsSpan(6, rest.Length - 7), NumberStyles.None, CultureInfo.InvariantCulture, out var l) && l < run.Legs.Count)
                return string.Create(CultureInfo.InvariantCulture, $"Leg {l + 1} of \"{run.Name}\", to {run.Legs[l].To.Word}");
            return rest == ".start" ? $"Start of \"{run.Name}\"" : $"Run \"{run.Name}\"";
        }

        return path switch
        {
            "" => $"Drawing {drawing.Number}",
            "materials" => "Material list",
            "shop" => "Shop rules",
            "service" => "Service",
            "accept" => "Accepted findings",
            _ => path,
        };
    }
}
