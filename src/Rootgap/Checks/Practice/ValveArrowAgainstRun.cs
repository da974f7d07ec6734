using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

/// <summary>A check or globe valve in a run that is written against its flow.</summary>
internal sealed class ValveArrowAgainstRun : Rule
{
    public override string Name => "valve-arrow-against-run";
    public override Severity Severity => Severity.Note;
    public override string Says => "A check or globe valve stands in a run whose `flow` is against the order in which its legs are written; a warning in a by-pass, where a run goes from one of the main run's branches to a later one and the main run flows along its legs, and in a branch that by its name (drain, vent, hose, sample) leads away from the line.";
    public override string Why => "Spools are marked in the order of the legs; the arrow on the valve's body then points the other way, and valves are put in backwards that way (common practice).";

    /// <summary>A run from one branch of another run to a later one of it, which flows along its legs.</summary>
    private static bool IsByPass(Drawing drawing, Run run) =>
        run is { Start.From: { } from, Legs: [.., { To: TieInPoint { With: var to } }] }
        && drawing.Runs.Any(main => main.FlowsAlong is true && IndexOf(main, from) is >= 0 and var first && IndexOf(main, to) > first);

    /// <summary>Words of runs that take something from the line (common practice).</summary>
    private static readonly string[] LeadsAway = ["drain", "drip", "blow", "vent", "hose", "sample", "relief", "overflow"];

    private static int IndexOf(Run run, string name) => run.Legs.ToList().FindIndex(l => l.To.Name == name);

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var run in fabrication.Route.Drawing.Runs)
        {
            if (run.FlowsAlong is not false)
                continue;
            foreach (var leg in run.Legs)
            {
                if (leg.To is not ValvePoint { Kind: ValveKind.Check or ValveKind.Globe } valve)
                    continue;
                if (IsByPass(fabrication.Route.Drawing, run))
                    yield return Found(leg.Source, "kind", $"By its `flow`, by-pass \"{run.Name}\" runs back past what it passes by: the arrow of this {Words.Of(valve.Kind)} valve points against the main flow.", "Mend the `flow` of one of the two runs.", "The valve is put in backwards.", Severity.Warn);
                else if (run.Start.From is not null && Array.Exists(LeadsAway, w => run.Name.Contains(w, StringComparison.OrdinalIgnoreCase)))
                    yield return Found(leg.Source, "kind", $"By its `flow`, \"{run.Name}\" runs into the line, and by its name it leads away from it: the arrow of this {Words.Of(valve.Kind)} valve points back to the line.", "Mend the `flow` of the run.", "The valve is put in backwards.", Severity.Warn);
                else
                    yield return Found(leg.Source, "kind", $"The arrow of this {Words.Of(valve.Kind)} valve points back to the start of run \"{run.Name}\": the flow goes against the legs.", "Look whether the run's `flow` is right; if it is, mark the flow on the spool and on the sheet.");
            }
        }
    }
}
