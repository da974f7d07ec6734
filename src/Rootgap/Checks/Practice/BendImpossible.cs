using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>A bend whose radius lies within its own pipe.</summary>
internal sealed class BendImpossible : Rule
{
    public override string Name => "bend-impossible";
    public override Severity Severity => Severity.Stop;
    public override bool CanBeAccepted => false;
    public override string Says => "A bend or a mitred bend has a radius of no more than half its pipe's outside diameter.";
    public override string Why => "The inner side of its pieces would have no length or less (geometry): the point slipped, or it is the radius of another bend.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var bend in fabrication.Route.Components.OfType<MadeBend>())
        {
            if (bend is { IsImpossible: true, Radius: { } radius })
                yield return Found(bend.Source, "bend radius", Say(fabrication.Units, $"A radius of {radius:len}, on pipe of {bend.Outside:len} outside: its inner side has no length."), "Look whether the point slipped.", "The bend cannot be made.");
        }
    }
}
