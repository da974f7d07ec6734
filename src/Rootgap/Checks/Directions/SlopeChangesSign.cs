using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

internal sealed class SlopeChangesSign : Rule
{
    public override string Name => "slope-changes-sign";
    public override Severity Severity => Severity.Warn;
    public override string Says => "In one run a leg falls and the next sloped one rises, or the other way round, with no drop or riser between.";
    public override string Why => "A fall before a rise is a pocket that holds fluid, a rise before a fall traps air (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var run in fabrication.Route.Drawing.Runs)
        {
            var last = 0.0;
            foreach (var leg in run.Legs)
            {
                if (leg.Slope == 0)
                {
                    if (leg.Go.Z != 0)
                        last = 0;
                    continue;
                }

                if (last * leg.Slope < 0)
                {
                    yield return Found(leg.Source, leg.Source.Has("rise") ? "rise" : "fall",
                        FormattableString.Invariant($"The run {(last < 0 ? "falls" : "rises")} 1 in {1 / Math.Abs(last):0.#} and here {(leg.Slope < 0 ? "falls" : "rises")} 1 in {1 / Math.Abs(leg.Slope):0.#}: {(last < 0 ? "a pocket that does not drain" : "a high point that holds air")}."),
                        "See which way the line drains; a wanted low point takes a drain, a high point a vent.", "The line does not drain.");
                }

                last = leg.Slope;
            }
        }
    }
}
