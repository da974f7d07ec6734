using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>A row of the material list that the drawing does not use.</summary>
internal sealed class ItemNotUsed : Rule
{
    public override string Name => "item-not-used";
    public override Severity Severity => Severity.Warn;
    public override string Says => "A row of the material list is used by nothing that is drawn. What the drawing file has no word for is a note, so are supports where none is drawn, and bends that are made of pipe.";
    public override string Why => "Either it is bought for nothing, or something is missing in the drawing (the list contradicts the drawing).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var row in fabrication.Materials)
        {
            if (row.Item is not { } item || row.UsedBy.Count > 0 || (row.Listed is { } listed && listed == 0))
                continue;
            // One of several rows that are alike may stay over where the others hold enough: still listed too much, but not unused. Where the legs name their rows, none of them is a spare for this one.
            var (all, needed) = Alike.Together(fabrication.Materials, row);
            if (needed > 0 && (all <= needed || fabrication.Materials.Any(o => o is { IsGuess: true, UsedBy.Count: > 0, Item: { } other } && Alike.Are(other, item))))
                continue;
            // Bends of pipe are counted with the pipe; some offices list them besides.
            if (item.Words.Ware is Ware.Elbow or Ware.Return or Ware.Other && item.What.Contains("bend", StringComparison.OrdinalIgnoreCase) && fabrication.Route.Components.Any(c => c is MadeBend && c.Size == item.Size))
            {
                yield return Found(item.Source, "what", Say($"Item {item.Item}, {item.What} NPS {item.Size}, is a row of its own, and the bends drawn are made of pipe, which is counted with the pipe."), "Ask whether they are bought as bends; if not, take the row out of the list.", severity: Severity.Note);
                continue;
            }

            var isDrawable = item.Words.Ware != Ware.Other && (item.Words.Ware != Ware.Support || fabrication.Route.Supports.Count > 0);
            yield return Found(item.Source, "what", Say($"Item {item.Item}, {item.What}{Sizes(item)}, is listed and drawn nowhere."),
                IsMeantFor(fabrication, item) is { } missing ? Say($"Look whether it was meant for the {missing.What}, size {(missing.Size2.IsNone ? missing.Size.ToString() : $"{missing.Size} x {missing.Size2}")}, which is drawn and not listed.") : "Take it out of the list, or look what the drawing leaves out.", severity: isDrawable ? Severity.Warn : Severity.Note);
        }
    }

    /// <summary>The one part of the row's ware and size, or of its ware alone, that is drawn and has no row; null where there is none or several.</summary>
    private static MaterialRow? IsMeantFor(Fabrication fabrication, MaterialItem item)
    {
        if (item.Words.Ware is Ware.Other or Ware.Support)
            return null;
        var missing = fabrication.Materials.Where(r => r is { Item: null, UsedBy.Count: > 0 } && fabrication.Route.PartOf(r.UsedBy[0])?.Ware == item.Words.Ware).ToList();
        return missing.FindAll(m => m.Size == item.Size) is { Count: > 0 } ofSize ? ofSize is [var only] ? only : null : missing is [var one] ? one : null;
    }

    /// <summary>The sizes of a row as they stand behind its words: " NPS 3 x 2"; empty where it has none.</summary>
    public static string Sizes(MaterialItem item) => item.Size.IsNone ? "" : item.Size2.IsNone ? $" NPS {item.Size}" : $" NPS {item.Size} x {item.Size2}";
}
