using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>Something drawn that the material list does not have.</summary>
internal sealed class ItemNotListed : Rule
{
    public override string Name => "item-not-listed";
    public override Severity Severity => Severity.Stop;
    public override string Says => "The drawing needs something that has no row in its material list. Gaskets and bolts are a note where the list has neither, supports where it has none: they may be listed elsewhere; nipples a note where pipe of their size is left over.";
    public override string Why => "It is not bought and not drawn from the stores (the drawing contradicts its own list).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var list = fabrication.Route.Drawing.Materials;
        if (list.Count == 0)
            yield break;
        foreach (var row in fabrication.Materials)
        {
            if (!row.IsLength || row.Item is not { } item || row.UsedBy.Where(id => fabrication.Route.PipeOf(id) is { Nipple: not null, Item: null }).ToList() is not [var first, ..] nipples)
                continue;
            var pipe = fabrication.Route.PipeOf(first)!;
            yield return Found(fabrication.Route.RowOf(pipe.Run, pipe.FirstLeg), "nipple", Say($"{nipples.Count} {(nipples.Count == 1 ? "nipple" : "nipples")} of NPS {pipe.Size} {(nipples.Count == 1 ? "has" : "have")} no row: item {item.Item}, {item.What}, has enough left over to cut {(nipples.Count == 1 ? "it" : "them")} from."), "Ask whether they are bought; if so, add a row to the list.", severity: Severity.Note);
        }

        var hasLoose = list.Any(m => m.Words.Ware is Ware.Gasket or Ware.StudBolt);
        foreach (var row in fabrication.Materials)
        {
            if (row.Item is not null || row.UsedBy.Count == 0 || RowOf(fabrication, row.UsedBy[0]) is not { } found)
                continue;
            var (source, key, states) = found;
            // A stated number that the list does not have is another rule's matter.
            if (states)
                continue;
            var isLoose = row.What.StartsWith("gasket", StringComparison.Ordinal) || row.What.StartsWith("stud", StringComparison.Ordinal);
            // Where the list has gaskets or studs, a missing one is told at its joint by a rule of its own.
            if (isLoose && hasLoose)
                continue;
            var isElsewhere = isLoose || (fabrication.Route.SupportOf(row.UsedBy[0]) is not null && !list.Any(m => m.Words.Ware == Ware.Support));
            var size = row.Size2.IsNone ? row.Size.ToString() : $"{row.Size} x {row.Size2}";
            yield return Found(source, key, row.IsLength
                    ? Say(fabrication.Units, $"Pipe NPS {size} is drawn ({row.Needed:pipe}) and not in the material list.")
                    : Say($"{row.What}, size {size}, is drawn ({row.Needed:0}) and not in the material list."),
                Meant(fabrication, row) is { } meant ? Say($"Mend item {meant.Item}, {meant.What}{ItemNotUsed.Sizes(meant)}, if it was meant: it is drawn nowhere. Else add a row to the list.") : "Add a row to the list, or mend the row that was meant.", "It is missing on the day it is wanted.", isElsewhere ? Severity.Note : Severity.Stop);
        }
    }

    /// <summary>The one row of the part's ware and size that nothing drawn is; or, where there is none, of its ware alone; null where several are.</summary>
    private static MaterialItem? Meant(Fabrication fabrication, MaterialRow missing)
    {
        if (fabrication.Route.PartOf(missing.UsedBy[0]) is not { } part || part.Ware is Ware.Other or Ware.Support)
            return null;
        var idle = fabrication.Materials.Where(r => r is { UsedBy.Count: 0, Item: { } item } && item.Words.Ware == part.Ware).Select(r => r.Item!).ToList();
        return idle.FindAll(i => i.Size == missing.Size) is { Count: > 0 } ofSize ? ofSize is [var only] ? only : null : idle is [var one] ? one : null;
    }

    /// <summary>Whether a leg's <c>item</c> is this part's: not the blind's behind its flange, nor the flanges' beside its valve.</summary>
    private static bool IsNamed(Component c) => c switch
    {
        BlindFlange => false,
        Flange => c.Drawn is FlangePoint or FlangedJointPoint,
        _ => true,
    };

    private static (SourceRow Row, string Key, bool States)? RowOf(Fabrication fabrication, string id)
    {
        var route = fabrication.Route;
        if (route.ComponentOf(id) is { } c)
            return (c.Source, "to", c.Source.Has("item") && !c.LiesInJoint && IsNamed(c));
        if (route.PipeOf(id) is { } pipe)
            return (route.RowOf(pipe.Run, pipe.FirstLeg), "go", route.RowOf(pipe.Run, pipe.FirstLeg).Has("pipe item"));
        if (route.SupportOf(id) is { } support)
            return (support.Source, "to", support.Source.Has("item"));
        foreach (var set in fabrication.Bolting)
        {
            if (set.Joint.Id == id)
                return (set.Joint.Source, "to", false);
        }

        if (route.Pads.FirstOrDefault(p => p.Id == id) is { } pad)
            return (pad.Source, pad.Source.Has("pad") ? "pad" : "to", pad.Source.Has("item"));
        return null;
    }
}
