using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.Checks;

internal sealed class NearlyStraight : Rule
{
    private const double Most = 3 * Math.PI / 180;

    public override string Name => "nearly-straight";
    public override Severity Severity => Severity.Warn;
    public override string Says => "An elbow that turns less than 3 degrees.";
    public override string Why => "Nobody cuts an elbow to so small a turn: a figure of one of the two directions is wrong, or the line is meant straight (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var run in fabrication.Route.Runs)
        {
            for (var i = 0; i + 1 < run.Directions.Count; i++)
            {
                var leg = run.Run.Legs[i];
                if (leg.To is not ElbowPoint || run.Directions[i].AngleTo(run.Directions[i + 1]) is var turn && turn is <= Tolerance.Turn or >= Most)
                    continue;
                // A change of slope is a small turn that is meant.
                var isSlope = leg.Slope != 0 || run.Run.Legs[i + 1].Slope != 0;
                yield return Found(leg.Source, "to", FormattableString.Invariant($"This elbow turns by {Angles.ToDegrees(turn):0.##} degrees only."),
                    isSlope ? "A change of slope is mostly taken up in the welds: see what the drawing wants." : "Mend the direction of this leg or the next, or leave the elbow out.",
                    severity: isSlope ? Severity.Note : null);
            }
        }
    }
}
