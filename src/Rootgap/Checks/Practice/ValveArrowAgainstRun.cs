using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

/// <summary>A check or globe valve in a run that is written against its flow.</summary>
internal sealed class ValveArrowAgainstRun : Rule
{
    public override string Name => "valve-arrow-against-run";
    public override Severity Severity => Severity.Note;
    public override string Says => "A check or globe valve stands in a run whose `flow` is against the order in which its legs are written.";
    public override string Why => "Spools are marked in the order of the legs; the arrow on the valve's body then points the other way, and valves are put in backwards that way (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var run in fabrication.Route.Drawing.Runs)
        {
            if (run.FlowsAlong is not false)
                continue;
            foreach (var leg in run.Legs)
            {
                if (leg.To is ValvePoint { Kind: ValveKind.Check or ValveKind.Globe } valve)
                    yield return Found(leg.Source, "kind", $"The arrow of this {Words.Of(valve.Kind)} valve points back to the start of run \"{run.Name}\": the flow goes against the legs.", "Mark the flow on the spool and on the sheet.");
            }
        }
    }
}
