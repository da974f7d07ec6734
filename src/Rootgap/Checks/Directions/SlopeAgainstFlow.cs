using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

internal sealed class SlopeAgainstFlow : Rule
{
    public override string Name => "slope-against-flow";
    public override Severity Severity => Severity.Warn;
    public override string Says => "A sloped leg rises the way the fluid flows.";
    public override string Why => "Lines are sloped to drain, and they drain the way they flow (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var run in fabrication.Route.Drawing.Runs)
        {
            if (run.FlowsAlong is not { } along)
                continue;
            foreach (var leg in run.Legs)
            {
                if (leg.Slope == 0 || leg.Slope > 0 != along)
                    continue;
                var key = leg.Source.Has("rise") ? "rise" : "fall";
                yield return Found(leg.Source, key,
                    FormattableString.Invariant($"This leg {(leg.Slope > 0 ? "rises" : "falls")} 1 in {1 / Math.Abs(leg.Slope):0.#} as written, and run {run.Name} flows {(along ? "along" : "against")} its legs: the fluid climbs."),
                    key == "rise" ? "Write `fall:` if the line drains with the flow, or mend the run's `flow`." : "Write `rise:` if the line drains with the flow, or mend the run's `flow`.", "The line does not drain.");
            }
        }
    }
}
