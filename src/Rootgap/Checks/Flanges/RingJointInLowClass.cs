using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Checks;

internal sealed class RingJointInLowClass : FlangeRule
{
    public override string Name => "ring-joint-in-low-class";
    public override Severity Severity => Severity.Note;
    public override string Says => "A ring-joint flange in class 150.";
    public override string Why => "Ring joints are for high pressure; class 150 has the grooves in the table, but they are rarely made (ASME B16.5, common practice).";

    protected override Finding? Look(Flange flange, Drawing drawing) =>
        flange.Line.Facing == Facing.RingJoint && Class(flange) is 150
            ? Found(flange.Source, "facing", $"A ring-joint flange NPS {flange.Size} in class {flange.Line.Class} is rarely made.", "Ask whether RF is meant.")
            : null;
}
