using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Checks;

internal sealed class SlipOnInHighClass : FlangeRule
{
    public override string Name => "slip-on-in-high-class";
    public override Severity Severity => Severity.Note;
    public override string Says => "A slip-on flange in class 600 or above.";
    public override string Why => "Slip-on flanges are mostly kept to classes 150 and 300; above, weld neck is the rule (common practice).";

    protected override Finding? Look(Flange flange, Drawing drawing) =>
        flange.Kind == FlangeKind.SlipOn && Class(flange) >= 600
            ? Found(flange.Source, "to", $"A slip-on flange in class {flange.Line.Class} is unusual.", "Ask whether WN is meant.")
            : null;
}
