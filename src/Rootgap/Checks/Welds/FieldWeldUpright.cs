using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>A field weld in an upright pipe.</summary>
internal sealed class FieldWeldUpright : Rule
{
    private static readonly double Upright = Math.Cos(10 * Math.PI / 180);

    public override string Name => "field-weld-in-upright-pipe";
    public override Severity Severity => Severity.Note;
    public override string Says => "A field or final-fit butt weld lies in a pipe that stands upright.";
    public override string Why => "The weld goes round level, at height: it is the slower position, and the upper spool hangs while it is made (common practice: put field welds in level pipe).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var joint in fabrication.Route.Joints)
        {
            if (joint.Kind != JointKind.Butt || joint.Place == WeldPlace.Shop || Math.Abs(joint.Axis.Z) < Upright)
                continue;
            yield return Found(joint.Source, joint.Source.Has("end") ? "end" : "begin", $"{(joint.Place == WeldPlace.FinalFit ? "Final-fit" : "Field")} weld {joint.Id} lies in an upright pipe.",
                "Move it to a level pipe if there is one; if not, plan the support and the scaffold.");
        }
    }
}
