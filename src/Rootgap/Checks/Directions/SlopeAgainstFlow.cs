using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

internal sealed class SlopeAgainstFlow : Rule
{
    public override string Name => "slope-against-flow";
    public override Severity Severity => Severity.Warn;
    public override string Says => "A sloped leg rises the way the fluid flows; a note, once, where all sloped legs of a run designed for 2 bar or more do.";
    public override string Why => "Lines are sloped to drain, and they drain the way they flow (common practice).";

    /// <summary>A line that drains by itself is designed for less than this, bar (common practice).</summary>
    private const double Pumped = 2;

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var run in fabrication.Route.Drawing.Runs)
        {
            if (run.FlowsAlong is not { } along)
                continue;
            var sloped = run.Legs.Where(l => l.Slope != 0).ToList();
            // A line under pressure may be laid to drain back: then all of it rises.
            var drainsBack = sloped.Count > 1 && ServiceFigures.Bar(fabrication.Route.Drawing.Service.DesignPressure) >= Pumped && sloped.TrueForAll(l => l.Slope > 0 == along);
            foreach (var leg in sloped)
            {
                if (leg.Slope > 0 != along || (drainsBack && leg != sloped[0]))
                    continue;
                if (drainsBack)
                {
                    yield return Found(leg.Source, leg.Source.Has("rise") ? "rise" : "fall", $"Run {run.Name} rises the way it flows, all along: it drains back.", "Look whether that is meant.", severity: Severity.Note);
                    continue;
                }

                var key = leg.Source.Has("rise") ? "rise" : "fall";
                yield return Found(leg.Source, key,
                    FormattableString.Invariant($"This leg {(leg.Slope > 0 ? "rises" : "falls")} 1 in {1 / Math.Abs(leg.Slope):0.#} as written, and run {run.Name} flows {(along ? "along" : "against")} its legs: the fluid climbs."),
                    key == "rise" ? "Write `fall:` if the line drains with the flow, or mend the run's `flow`." : "Write `rise:` if the line drains with the flow, or mend the run's `flow`.", "The line does not drain.");
            }
        }
    }
}
