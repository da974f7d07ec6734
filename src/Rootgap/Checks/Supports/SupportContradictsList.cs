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
    public override string Says => "A support is of another kind, is for another size, bears another mark or is held on otherwise than its row of the material list says, or one of the marks in a row is drawn nowhere.";
    public override string Why => "A guide holds what a hanger lets go: the stress engineer chose the one (the list contradicts the drawing).";

    public override IEnumerable<Finding> Check(Fabrication fabrication) => [.. OfDrawn(fabrication), .. NotDrawn(fabrication)];

    private IEnumerable<Finding> OfDrawn(Fabrication fabrication)
    {
        foreach (var support in fabrication.Route.Supports)
        {
            if (support.Item is not { } item)
                continue;
            var kinds = FileWords.SupportKinds.Where(k => item.What.Contains(k, StringComparison.OrdinalIgnoreCase)).ToList();
            if (kinds.Count > 0 && !kinds.Contains(support.Name, StringComparer.Ordinal))
                yield return Found(support.Source, "kind", $"{support.Tag} is drawn as {Words.A(support.Name)}, and item {item.Item} is {item.What}.", "See the support's drawing, and mend the one that is wrong.", "The wrong support is made.");
            if (support.Weld is not null && (item.What.Contains("clamp", StringComparison.OrdinalIgnoreCase) || item.What.Contains("liner", StringComparison.OrdinalIgnoreCase) || item.What.Contains("lined", StringComparison.OrdinalIgnoreCase)))
                yield return Found(support.Source, support.Source.Has("attach") ? "attach" : "kind", $"{support.Tag} is drawn welded, and item {item.Item} is {item.What}.", "See the support's drawing: what is clamped is not welded.", "A weld is made on the pipe where none belongs.");
            if (!item.Size.IsNone && item.Size != support.Size && support.Drawn.Kind is not (SupportKind.Trunnion or SupportKind.Lug))
                yield return Found(item.Source, "size", $"Item {item.Item}, {item.What}, is for NPS {item.Size}, and {support.Tag} stands on NPS {support.Size}.", "See the support's drawing, and mend the one that is wrong.", "It does not go round the pipe.");
            var marks = Mark().Matches(item.What).Select(m => m.Value).ToList();
            if (support.Drawn.Tag.Length > 0 && marks.Count > 0 && !support.IsMarked(item))
                yield return Found(support.Source, support.Source.Has("tag") ? "tag" : "kind", $"No row of the list is marked {support.Drawn.Tag}, as this {support.Name} is; item {item.Item}, the nearest, is {item.What}.", "See the support list, and mend the mark that is wrong.", "The support is sought under the wrong mark.");
        }
    }

    /// <summary>The marks of a row of the list some of which are drawn and some not.</summary>
    private IEnumerable<Finding> NotDrawn(Fabrication fabrication)
    {
        var drawn = fabrication.Route.Supports.Select(s => s.Drawn.Tag).ToHashSet(StringComparer.OrdinalIgnoreCase);
        foreach (var item in fabrication.Route.Drawing.Materials.Where(m => m.Words.Ware == Ware.Support))
        {
            var marks = Mark().Matches(item.What).Select(m => m.Value).ToList();
            var missing = marks.FindAll(m => !drawn.Contains(m) && marks.Exists(o => drawn.Contains(o) && Letters(o).Equals(Letters(m), StringComparison.OrdinalIgnoreCase)));
            if (missing.Count > 0)
                yield return Found(item.Source, "what", $"Item {item.Item}, {item.What}: {string.Join(", ", missing)} {(missing.Count == 1 ? "is" : "are")} drawn nowhere.", "Look whether a support was left off the drawing, or its mark misread.", "The pipe hangs free where the support belongs.");
        }
    }

    private static string Letters(string mark) => new([.. mark.TakeWhile(c => !char.IsAsciiDigit(c))]);

    /// <summary>A mark: letters, and figures behind them, as PS-41.</summary>
    [GeneratedRegex("\\b[A-Za-z]{1,5}-?\\d+[A-Za-z]?\\b", RegexOptions.CultureInvariant, matchTimeoutMilliseconds: 1000)]
    private static partial Regex Mark();
}
