using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>Fewer pieces listed than drawn.</summary>
internal sealed class QuantityShort : Rule
{
    public override string Name => "quantity-short";
    public override Severity Severity => Severity.Stop;
    public override string Says => "A row of the material list has fewer pieces than the drawing needs.";
    public override string Why => "The job stops for one elbow (the drawing contradicts its own list).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var row in fabrication.Materials)
        {
            if (row.IsLength || row.Item is not { } item || row.Listed is not { } listed || listed >= row.Needed)
                continue;
            var (all, needed) = Alike.Together(fabrication.Materials, row);
            if (all >= needed)
                continue;
            // More of studs that are too short, or of a fitting that has all its own places: the row is another's.
            if (row.Item.Words.Ware == Ware.StudBolt && fabrication.Bolting.Any(b => row.UsedBy.Contains(b.Joint.Id, StringComparer.Ordinal) && item.Length is { } length && length < b.Length - StudRows.OneStep))
            {
                yield return Found(item.Source, "quantity", ShortOf(row, item, listed), "Not all joints that are counted here take this length: see what is said of the studs' length first.", "It is missing on the day it is wanted.");
                continue;
            }

            var strangers = row.UsedBy.Select(id => fabrication.Route.PartOf(id)).OfType<Part>().Where(p => p.IsOtherKind(item.Words)).ToList();
            if (strangers.Count > 0 && row.Needed - strangers.Count <= listed)
            {
                yield return Found(item.Source, "quantity", ShortOf(row, item, listed), Say($"{strangers[0].DrawnAs} is drawn too ({strangers.Count}) and has no row: add one. This row has its own."), "It is missing on the day it is wanted.");
                continue;
            }

            // Which of the two rows is wrong is not known: nothing is mended by itself.
            if (Idle(fabrication, item) is { } idle)
            {
                yield return Found(item.Source, "quantity", ShortOf(row, item, listed), Say($"Look whether one of them is item {idle.Item}, {idle.What}, which is drawn nowhere; if not, list {row.Needed:0}."), "It is missing on the day it is wanted.");
                continue;
            }

            yield return Found(item.Source, "quantity", ShortOf(row, item, listed), Say($"List {row.Needed:0}, or look whether the drawing has one too many."), "It is missing on the day it is wanted.") with
            {
                Change = item.Source.Replace("quantity", Say($"{row.Needed:0}"), Say($"item {item.Item}: quantity {listed:0.##} is now {row.Needed:0}")),
                InSheet = item.Source.InSheet("quantity", Say($"{row.Needed:0}"), Say($"item {item.Item}: quantity {listed:0.##} is now {row.Needed:0}")),
            };
        }
    }

    private static string ShortOf(MaterialRow row, MaterialItem item, double listed) => Say($"Item {item.Item}, {item.What}: {row.Needed:0} needed, {listed:0.##} listed: {row.Needed - listed:0.##} short.");

    /// <summary>A row of the same kind of ware and size that nothing uses; null where there is none, or where there are several.</summary>
    private static MaterialItem? Idle(Fabrication fabrication, MaterialItem item) =>
        item.Words.Ware is Ware.Other ? null : fabrication.Materials.Where(r => r is { UsedBy.Count: 0, Item: { } other } && other.Words.Ware == item.Words.Ware && other.Size == item.Size).ToList() is [{ Item: { } only }] ? only : null;
}
