using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>Two final-fit welds on one straight line.</summary>
internal sealed class FinalFitTwiceOnLine : Rule
{
    public override string Name => "final-fit-twice-on-one-line";
    public override Severity Severity => Severity.Note;
    public override string Says => "Two final-fit welds of a run lie on one straight line.";
    public override string Why => "Both take up the same direction: one would do, and another direction has none (common practice: one a direction, unless a fixed point stands between).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var joints = fabrication.Route.Joints;
        Joint? last = null;
        foreach (var joint in joints)
        {
            if (joint.Place != WeldPlace.FinalFit)
                continue;
            if (last is { } before && before.Run == joint.Run && before.Axis.AngleTo(joint.Axis) < Tolerance.Turn && (joint.At - before.At).SquareTo(before.Axis).Length < Tolerance.Closing)
            {
                yield return Found(joint.Source, joint.Source.Has("end") ? "end" : "begin", $"Welds {before.Id} and {joint.Id} are both final-fit on one straight line.",
                    "Make one of them a shop or field weld, or move it to a leg in another direction.");
            }

            last = joint;
        }
    }
}
