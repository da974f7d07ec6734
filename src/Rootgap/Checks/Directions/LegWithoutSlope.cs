using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

internal sealed class LegWithoutSlope : Rule
{
    public override string Name => "leg-without-slope";
    public override Severity Severity => Severity.Note;
    public override string Says => "A level leg in a run whose other level legs are sloped.";
    public override string Why => "A sloped line is mostly sloped all the way; one row without its slope holds fluid (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var run in fabrication.Route.Drawing.Runs)
        {
            var (sloped, level) = (0, 0);
            foreach (var leg in run.Legs)
            {
                sloped += leg.Slope != 0 ? 1 : 0;
                level += IsLevel(leg) ? 1 : 0;
            }

            if (sloped == 0 || level == 0 || level > sloped)
                continue;
            foreach (var leg in run.Legs)
            {
                if (IsLevel(leg))
                    yield return Found(leg.Source, "go", $"This leg is level, and {(sloped == 1 ? "another leg" : FormattableString.Invariant($"{sloped} other legs"))} of run {run.Name} {(sloped == 1 ? "slopes" : "slope")}.", "Add `fall:` or `rise:` if it slopes too.", "Fluid stands in this leg.");
            }
        }
    }

    private static bool IsLevel(Leg leg) => leg.Slope == 0 && leg.Go.Z == 0 && !leg.MakeUp;
}
