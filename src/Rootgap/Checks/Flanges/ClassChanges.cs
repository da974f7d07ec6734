using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

internal sealed class ClassChanges : Rule
{
    public override string Name => "class-changes";
    public override Severity Severity => Severity.Note;
    public override string Says => "A flange or valve in the line has another class or facing than the rest of its run.";
    public override string Why => "Against equipment that is right; inside the line it is mostly a row read wrong, and a joint's two flanges must agree (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var run in fabrication.Route.Drawing.Runs)
        {
            foreach (var leg in run.Legs)
            {
                if (leg.To is not (FlangePoint or FlangedJointPoint or ValvePoint { Ends: FittingEnds.Flanged } or InLineItemPoint { Ends: FittingEnds.Flanged }))
                    continue;
                if (leg.Line.Class != run.Line.Class)
                    yield return Found(leg.Source, "class", $"Class {leg.Line.Class} here, {run.Line.Class} in the rest of run {run.Name}.", "See that the class is meant, and that what it mates with has it too.");
                if (leg.Line.Facing != run.Line.Facing)
                    yield return Found(leg.Source, "facing", $"Facing {Words.Of(leg.Line.Facing)} here, {Words.Of(run.Line.Facing)} in the rest of run {run.Name}.", "See that the facing is meant, and that what it mates with has it too.");
            }
        }
    }
}
