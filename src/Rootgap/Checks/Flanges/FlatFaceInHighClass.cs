using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Checks;

internal sealed class FlatFaceInHighClass : FlangeRule
{
    public override string Name => "flat-face-in-high-class";
    public override Severity Severity => Severity.Note;
    public override string Says => "A flat-faced flange in class 300 or above.";
    public override string Why => "Flat faces are for mating with cast iron, which comes in classes 125 and 250 (common practice).";

    protected override Finding? Look(Flange flange, Drawing drawing) =>
        flange.Line.Facing == Facing.Flat && Class(flange) >= 300
            ? Found(flange.Source, "facing", $"A flat face in class {flange.Line.Class} is unusual.", "Ask whether RF is meant.")
            : null;
}
