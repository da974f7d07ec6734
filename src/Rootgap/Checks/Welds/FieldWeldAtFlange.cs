using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>A field weld straight on a flange that is bolted to something.</summary>
internal sealed class FieldWeldAtFlange : Rule
{
    public override string Name => "field-weld-at-bolted-flange";
    public override Severity Severity => Severity.Note;
    public override string Says => "A field or final-fit weld is made on the hub of a flange; at a lap joint it lies on the stub end, and the flange slides back.";
    public override string Why => "The weld stands at the studs' back: no room for a clamp, and heat beside a gasket or a machine's nozzle. Whether it may be welded bolted up is for the procedure and the engineer to say (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var route = fabrication.Route;
        foreach (var joint in route.Joints)
        {
            if (!joint.IsWeld || joint.Place == WeldPlace.Shop)
                continue;
            foreach (var id in joint.Between)
            {
                if (route.ComponentOf(id) is not Flange { Stub: null } flange)
                    continue;
                yield return Found(joint.Source, joint.Source.Has("end") ? "end" : "begin", $"Weld {joint.Id} is made at site on the {flange.Name} itself, at the back of its studs.",
                    "Put the site weld on pipe, away from the flange; otherwise fit the flange loose first and ask the engineer how it is to be welded.");
            }
        }
    }
}
