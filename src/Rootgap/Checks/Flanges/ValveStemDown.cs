using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.Checks;

internal sealed class ValveStemDown : Rule
{
    public override string Name => "valve-stem-down";
    public override Severity Severity => Severity.Warn;
    public override string Says => "A valve whose stem, or a check valve whose cover, hangs below the level.";
    public override string Why => "Dirt settles in the bonnet and the packing stands in fluid; the flap of a check valve falls open and not shut (common practice: upright, or at least level).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var run in fabrication.Route.Runs)
        {
            for (var i = 0; i < run.Directions.Count; i++)
            {
                var leg = run.Run.Legs[i];
                if (leg.To is not ValvePoint { Stem: { } stem, Kind: var kind } || stem.Unit.Z >= -0.05)
                    continue;
                var isCheck = kind == ValveKind.Check;
                yield return Found(leg.Source, "stem",
                    FormattableString.Invariant($"The {(isCheck ? "cover of this check valve" : "stem of this valve")} points {(stem.Unit.Z < -0.99 ? "down" : $"{Angles.ToDegrees(Math.Asin(-stem.Unit.Z)):0} degrees below the level")}."),
                    "Turn it up or level, or ask whether it is meant.", isCheck ? "The flap hangs open: it does not fall shut." : "Dirt collects in the bonnet, and nobody reaches the handwheel.");
            }
        }
    }
}
