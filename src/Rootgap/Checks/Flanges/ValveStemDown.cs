using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.Checks;

internal sealed class ValveStemDown : Rule
{
    public override string Name => "valve-stem-down";
    public override Severity Severity => Severity.Warn;
    public override string Says => "A valve whose stem hangs below the level.";
    public override string Why => "Dirt settles in the bonnet and the packing stands in fluid (common practice: stem upright, or at least level).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var run in fabrication.Route.Runs)
        {
            for (var i = 0; i < run.Directions.Count; i++)
            {
                var leg = run.Run.Legs[i];
                if (leg.To is ValvePoint { Stem: { } stem, Kind: not ValveKind.Check } && stem.Unit.Z < -0.05)
                    yield return Found(leg.Source, "stem", FormattableString.Invariant($"The stem of this valve points {(stem.Unit.Z < -0.99 ? "down" : $"{Angles.ToDegrees(Math.Asin(-stem.Unit.Z)):0} degrees below the level")}."), "Turn it up or level, or ask whether it is meant.", "Dirt collects in the bonnet, and nobody reaches the handwheel.");
            }
        }
    }
}
