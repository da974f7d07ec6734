using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>A valve whose mass nobody knows.</summary>
internal sealed class MassUnknown : Rule
{
    public override string Name => "mass-unknown";
    public override Severity Severity => Severity.Note;
    public override string Says => "The drawing gives no mass for a valve, or for a support that is welded on in the shop, and no table has one.";
    public override string Why => "Spool and erection masses leave it out; a lift planned by them is too light (common practice: take it from the maker's sheet).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var c in fabrication.Route.Components)
        {
            if (c.LiesInJoint || fabrication.Masses.ContainsKey(c.Id))
                continue;
            yield return Found(c.Source, "to", $"Nobody knows the mass of this {c.Name} NPS {c.Size}: it is left out of all masses.", "Add `mass:` from the maker's sheet.");
        }

        foreach (var s in fabrication.Route.Supports)
        {
            if (s.IsOfSpool && s.Mass is null)
                yield return Found(s.Source, "to", $"Nobody knows the mass of this {s.Name}: it leaves with spool {fabrication.SpoolOf[s.Pipe]} and is left out of its mass.", "Add `mass:` from the support drawing.");
        }
    }
}
