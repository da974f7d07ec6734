using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Routes;
using Rootgap.Standards;

namespace Rootgap.Checks;

/// <summary>A pipe item on a leg that has no pipe of its own.</summary>
internal sealed class PipeItemWithoutPipe : Rule
{
    public override string Name => "pipe-item-without-pipe";
    public override Severity Severity => Severity.Warn;
    public override string Says => "A leg names a `pipe item` and has no pipe of its own: fitting stands on fitting, or the pipe comes from the leg before.";
    public override string Why => "The words do nothing there; they belong to another leg, or a dimension leaves no room for the pipe (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var route = fabrication.Route;
        var own = route.Pipes.Select(p => (p.Run, p.FirstLeg)).ToHashSet();
        for (var r = 0; r < route.Runs.Count; r++)
        {
            var legs = route.Runs[r].Run.Legs;
            for (var l = 0; l < legs.Count; l++)
            {
                if (legs[l].Source.Has("pipe item") && !own.Contains((r, l)))
                    yield return Found(legs[l].Source, "pipe item", "This leg has no pipe of its own, and names an item for one.", "Name it on the leg in which the pipe begins, or look whether the dimension is right.");
            }
        }
    }
}
