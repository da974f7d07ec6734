using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.Checks;

internal sealed class ValveStemSkew : Rule
{
    public override string Name => "valve-stem-skew";
    public override Severity Severity => Severity.Note;
    public override string Says => "A valve whose stem does not stand square to the pipe.";
    public override string Why => "Only Y-pattern valves have a slanting stem (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var run in fabrication.Route.Runs)
        {
            for (var i = 0; i < run.Directions.Count; i++)
            {
                var leg = run.Run.Legs[i];
                if (leg.To is ValvePoint { Stem: { } stem } && Math.Abs(stem.Unit.Dot(run.Directions[i])) is > 0.1 and <= 0.985 and var cos)
                    yield return Found(leg.Source, "stem", FormattableString.Invariant($"The stem stands {Angles.ToDegrees(Math.Acos(cos)):0} degrees to the pipe, not 90."), "See that the valve is a Y-pattern one, or mend the direction.");
            }
        }
    }
}
