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
    public override string Says => "The drawing needs something that has no row in its material list. Gaskets and bolts are a note where the list has neither, supports where it has none: they may be listed elsewhere.";
    public override string Why => "It is not bought and not drawn from the stores (the drawing contradicts its own list).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var list = fabrication.Route.Drawing.Materials;
        if (list.Count == 0)
            yield break;
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
                "Add a row to the list, or mend the row that was meant.", "It is missing on the day it is wanted.", isElsewhere ? Severity.Note : Severity.Stop);
        }
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
