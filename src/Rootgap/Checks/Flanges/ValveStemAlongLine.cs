using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.Checks;

internal sealed class ValveStemAlongLine : Rule
{
    public override string Name => "valve-stem-along-line";
    public override Severity Severity => Severity.Stop;
    public override string Says => "A valve whose stem is drawn along the pipe.";
    public override string Why => "The stem stands square to the bore, or at 45 degrees in a Y body (geometry).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var run in fabrication.Route.Runs)
        {
            for (var i = 0; i < run.Directions.Count; i++)
            {
                var leg = run.Run.Legs[i];
                if (leg.To is ValvePoint { Stem: { } stem } && Math.Abs(stem.Unit.Dot(run.Directions[i])) > 0.985)
                    yield return Found(leg.Source, "stem", "The stem of this valve runs along the pipe itself.", "Give the side to which the stem points.", "The handwheel ends up on a side that nobody chose.");
            }
        }
    }
}
