using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>Small bore welded in the shop.</summary>
internal sealed class SmallBoreInShop : Rule
{
    public override string Name => "small-bore-in-shop";
    public override Severity Severity => Severity.Note;
    public override string Says => "A run of NPS 1-1/2 or less has shop welds beyond its first fitting; the row of a drain or a vent is left out.";
    public override string Why => "Small bore is mostly run at site, where it is bent round what stands there; as a spool it is easily broken off on the way (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var route = fabrication.Route;
        for (var r = 0; r < route.Runs.Count; r++)
        {
            var run = route.Runs[r];
            // The outlet, the nipple and the valve of a drain go with the header that they stand on.
            if (run.Sizes.Any(s => !s.IsSmallBore) || run.Run.Source.Text("to") is "drain" or "vent")
                continue;
            var welds = 0;
            foreach (var joint in route.Joints)
            {
                if (joint.Run == r && joint is { Place: WeldPlace.Shop, Kind: JointKind.Butt or JointKind.Socket })
                    welds++;
            }

            if (welds > 2)
                yield return Found(run.Run.Source, "run", Say($"Run \"{run.Run.Name}\" is NPS {run.Sizes[0]} and has {welds} shop welds; small bore is mostly run at site."), "Mark its welds `field` if it is run at site.");
        }
    }
}
