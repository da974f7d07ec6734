using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.Checks;

internal sealed class RolledFitting : Rule
{
    private const double Quarter = Math.PI / 2;

    public override string Name => "rolled-fitting";
    public override Severity Severity => Severity.Note;
    public override string BeforeCutting => "rolled elbows, set by their cards";
    public override string Says => "An elbow on a level or upright pipe that points neither level, upright nor along the compass.";
    public override string Why => "A rolled fitting is set by its roll angle with a level; read as a plain one it leads the line another way (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var run in fabrication.Route.Runs)
        {
            for (var i = 0; i + 1 < run.Directions.Count; i++)
            {
                var leg = run.Run.Legs[i];
                var along = run.Directions[i];
                if (leg.To is not ElbowPoint || run.Directions[i + 1].SquareTo(along) is var side && side.Length < 0.05)
                    continue;
                // A slope of 1:50 and less does not make a rolled fitting.
                var roll = along.AnySquare().AngleTo(side);
                var off = Math.Abs(roll - (Math.Round(roll / Quarter) * Quarter));
                if (off < 2 * Math.PI / 180)
                    continue;
                var from = Math.Abs(along.Z) > 0.999 ? "north" : "upright";
                yield return Found(leg.Source, "to", FormattableString.Invariant($"This elbow is rolled {Angles.ToDegrees(roll):0.#} degrees from {from}."),
                    "Set it with a level on the free end before tacking.", "It is read as a plain elbow.");
            }
        }
    }
}
