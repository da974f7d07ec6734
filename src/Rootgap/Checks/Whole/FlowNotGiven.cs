using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

internal sealed class FlowNotGiven : Rule
{
    public override string Name => "flow-not-given";
    public override Severity Severity => Severity.Note;
    public override string Says => "A check or globe valve stands in a run whose flow is not given.";
    public override string Why => "These valves work one way round only: the arrow on the body must lie along the flow (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var run in fabrication.Route.Drawing.Runs)
        {
            if (run.FlowsAlong is not null)
                continue;
            foreach (var leg in run.Legs)
            {
                if (leg.To is ValvePoint { Kind: ValveKind.Check or ValveKind.Globe } valve)
                {
                    yield return Found(leg.Source, "kind", $"This {Words.Of(valve.Kind)} valve has a flow direction, and run {run.Name} does not say which way it flows.",
                        "Add `flow: along` or `flow: against` to the run.", "The valve goes in the wrong way round.");
                }
            }
        }
    }
}
