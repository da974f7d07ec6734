using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>A final-fit weld with nothing fixed on one side of it.</summary>
internal sealed class FinalFitTakesUpNothing : Rule
{
    public override string Name => "final-fit-takes-up-nothing";
    public override Severity Severity => Severity.Note;
    public override string Says => "On one side of a final-fit weld the line ends free: no fixed point stands there.";
    public override string Why => "Extra pipe answers what two fixed points are out along the pipe. Where one side is free, the free end takes it up, and the trimming is work for nothing (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var route = fabrication.Route;
        List<FixedEnd>? ends = null;
        foreach (var joint in route.Joints)
        {
            if (joint.Place != WeldPlace.FinalFit)
                continue;
            ends ??= FixedEnd.AllOf(route);
            var parted = new Parted(route.Joints, j => j != joint);
            // A ring stays whole when one joint is thought away: it can be out of true in itself.
            if (joint.Between is [var a, var b] && parted.GroupOf(a) == parted.GroupOf(b))
                continue;
            var free = joint.Between.FirstOrDefault(side => !ends.Exists(e => e.Joint != joint && parted.GroupOf(e.Part) == parted.GroupOf(side)));
            if (free is null)
                continue;
            yield return Found(joint.Source, joint.Source.Has("end") ? "end" : "begin", $"Final-fit weld {joint.Id} has no fixed point on one side: there is nothing to fit to.",
                "Mark it field, or put the final-fit weld between two fixed points.");
        }
    }
}
