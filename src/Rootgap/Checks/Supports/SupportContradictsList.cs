using System.Text.RegularExpressions;
using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

/// <summary>A support that its row of the list calls otherwise.</summary>
internal sealed partial class SupportContradictsList : Rule
{
    public override string Name => "support-contradicts-list";
    public override Severity Severity => Severity.Warn;
    public override string Says => "A support is of another kind, or bears another mark, than its row of the material list.";
    public override string Why => "A guide holds what a hanger lets go: the stress engineer chose the one (the list contradicts the drawing).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var support in fabrication.Route.Supports)
        {
            if (support.Item is not { } item)
                continue;
            var kinds = FileWords.SupportKinds.Where(k => item.What.Contains(k, StringComparison.OrdinalIgnoreCase)).ToList();
            if (kinds.Count > 0 && !kinds.Contains(support.Name, StringComparer.Ordinal))
                yield return Found(support.Source, "kind", $"{support.Tag} is drawn as a {support.Name}, and item {item.Item} is {item.What}.", "See the support's drawing, and mend the one that is wrong.", "The wrong support is made.");
            var marks = Mark().Matches(item.What).Select(m => m.Value).ToList();
            if (support.Drawn.Tag.Length > 0 && marks.Count > 0 && !marks.Contains(support.Drawn.Tag, StringComparer.OrdinalIgnoreCase))
                yield return Found(support.Source, support.Source.Has("tag") ? "tag" : "kind", $"This {support.Name} is marked {support.Drawn.Tag}, and item {item.Item} is {item.What}.", "See the support list, and mend the mark that is wrong.", "The support is sought under the wrong mark.");
        }
    }

    /// <summary>A mark: letters, and figures behind them, as PS-41.</summary>
    [GeneratedRegex("\\b[A-Za-z]{1,5}-?\\d+[A-Za-z]?\\b", RegexOptions.CultureInvariant, matchTimeoutMilliseconds: 1000)]
    private static partial Regex Mark();
}
