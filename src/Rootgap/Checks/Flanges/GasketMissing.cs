using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Routes;

namespace Rootgap.Checks;

internal sealed class GasketMissing : Rule
{
    public override string Name => "gasket-missing";
    public override Severity Severity => Severity.Stop;
    public override string Says => "A bolted joint for which the material list has no gasket of its size.";
    public override string Why => "Every pair of faces takes one gasket, and the joint's length counts it (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var materials = fabrication.Route.Drawing.Materials;
        // A list with neither gaskets nor studs is the list of what is welded: loose parts stand on another.
        if (!materials.Any(m => m.Words.Ware is Ware.Gasket or Ware.StudBolt))
            yield break;
        SourceRow? last = null;
        foreach (var joint in fabrication.Route.Joints)
        {
            if (joint.Kind != JointKind.Bolted || joint.ByOthers || joint.Source == last)
                continue;
            var isListed = false;
            foreach (var item in materials)
                isListed |= item.Words.Ware == Ware.Gasket && (item.Size == joint.Size || item.Size.IsNone);
            if (isListed)
                continue;
            last = joint.Source;
            yield return Found(joint.Source, "to", $"Joint {joint.Id} takes a gasket NPS {joint.Size} class {joint.Class}, and the list has none.",
                "Add it to the material list; where the neighbour lists it, write `bolting: by others`.", "The flanges stand open on the day of bolting up.");
        }
    }
}
