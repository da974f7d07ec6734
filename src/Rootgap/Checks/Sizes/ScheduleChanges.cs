using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

internal sealed class ScheduleChanges : Rule
{
    public override string Name => "schedule-changes";
    public override Severity Severity => Severity.Note;
    public override string Says => "The schedule changes from one leg to the next.";
    public override string Why => "One leg of another wall is often a row read wrong; where it is meant, the pieces must be marked apart in the shop (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var run in fabrication.Route.Drawing.Runs)
        {
            for (var i = 1; i < run.Legs.Count; i++)
            {
                var (before, here) = (run.Legs[i - 1].Line.Schedule, run.Legs[i].Line.Schedule);
                // After a reducer another schedule is the usual thing.
                if (before != here && run.Legs[i - 1].To is not ReducerPoint)
                    yield return Found(run.Legs[i].Source, "schedule", $"Schedule {before} up to here, {here} in this leg.", "See that the change is meant, and mark the pieces apart.");
            }
        }
    }
}
