using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

internal sealed class PointTooNear : Rule
{
    private const double Nothing = 1;
    private const double Little = 10;

    public override string Name => "point-too-near";
    public override Severity Severity => Severity.Warn;
    public override string Says => "A leg to a dimension point, an outlet or a stub-in is next to nothing long.";
    public override string Why => "A leg under 1 mm is no dimension that a tape can measure: a figure is missing or stands twice (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var run in fabrication.Route.Runs)
        {
            for (var i = 0; i < run.Distances.Count; i++)
            {
                var leg = run.Run.Legs[i];
                var isPassed = leg.To.IsPassedThrough || (i > 0 && run.Run.Legs[i - 1].To.IsPassedThrough);
                if (!isPassed || run.Distances[i] >= Little)
                    continue;
                yield return Found(leg.Source, "by", Say(fabrication.Units, $"This leg is {run.Distances[i]:small} long."),
                    "Give the real distance, or take the leg out.", "Two marks are made where one is meant.", run.Distances[i] < Nothing ? null : Severity.Note);
            }
        }
    }
}
