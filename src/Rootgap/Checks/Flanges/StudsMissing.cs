using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

internal sealed class StudsMissing : Rule
{
    public override string Name => "studs-missing";
    public override Severity Severity => Severity.Stop;
    public override string Says => "A bolted joint for which the material list has no studs or bolts of the diameter.";
    public override string Why => "Diameter, number and length follow from the flange's size and class (ASME B16.5).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var materials = fabrication.Route.Drawing.Materials;
        // A list with neither gaskets nor studs is the list of what is welded: loose parts stand on another.
        if (!materials.Any(m => m.Words.Ware is Ware.Gasket or Ware.StudBolt))
            yield break;
        var studs = new StudRows(materials, fabrication.Bolting);
        foreach (var (row, sets) in studs.Mistaken)
            yield return OfOtherDiameter(row, sets[0]);

        HashSet<RowPath>? told = null;
        foreach (var set in fabrication.Bolting)
        {
            if (studs.IsMistaken(set))
                continue;
            // A row of another diameter that no joint takes is the row that is wrong: where the others of its diameter are too few, as where there is none.
            var stray = materials.FirstOrDefault(m => m.Words.Ware == Ware.StudBolt && !m.Size.IsNone && fabrication.Bolting.All(b => b.Size != m.Size));
            if (materials.Any(m => m.Words.Ware == Ware.StudBolt && (m.Size == set.Size || m.Size.IsNone)) && (stray is null || !IsShort(fabrication, set)))
                continue;
            var row = stray?.Source ?? set.Joint.Source;
            if (!(told ??= []).Add(row.Path))
                continue;
            yield return stray is not null
                ? OfOtherDiameter(stray, set)
                : Found(row, "to", Say(fabrication.Units, $"Joint {set.Joint.Id} takes {set.Count} studs {set.Size} x {set.Length:len0}, and the list has none of {set.Size}."),
                    "Add them to the material list; where the neighbour lists them, write `bolting: by others`.", "The flanges cannot be bolted up.");
        }
    }

    private Finding OfOtherDiameter(MaterialItem row, BoltSet set) =>
        Found(row.Source, "size", $"{row.Size} in. studs are listed; joint {set.Joint.Id}, NPS {set.Joint.Size} class {set.Joint.Class}, takes {set.Count} of {set.Size}.", "Mend the diameter.", "The studs do not go through the holes, or rattle in them.");

    /// <summary>Whether the list has fewer studs of the diameter than all its joints take.</summary>
    private static bool IsShort(Fabrication fabrication, BoltSet set) =>
        fabrication.Materials.Any(r => r is { Item: { Words.Ware: Ware.StudBolt } item, Difference: < 0 } && item.Size == set.Size);
}
