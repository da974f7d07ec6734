using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Checks;

internal sealed class NearlyOnAxis : Rule
{
    private const double Most = Math.PI / 180;

    public override string Name => "nearly-on-axis";
    public override Severity Severity => Severity.Note;
    public override string Says => "A direction written as a vector that lies within 1 degree of an axis.";
    public override string Why => "A line so little off is either straight, with a stray figure, or sloped, and then `fall` or `rise` says it (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var run in fabrication.Route.Drawing.Runs)
        {
            foreach (var leg in run.Legs)
            {
                if (!leg.IsSkew || IsSquareToSlope(leg.Go, fabrication.Route))
                    continue;
                foreach (var (axis, word) in Axes.Six)
                {
                    if (axis.AngleTo(leg.Go) is > 1e-9 and < Most and var off)
                    {
                        yield return Found(leg.Source, "go", Say(fabrication.Units, $"This direction is {Angles.ToDegrees(off):0.##} degrees off {word}: {Axes.Say(fabrication.Units, leg.Go.SquareTo(axis))} in {leg.Go.Dot(axis):len}."),
                            $"Write `go: {word}`, with `fall:` or `rise:` if the line slopes.");
                        break;
                    }
                }
            }
        }
    }

    // A branch square to a header that slopes leans as much from upright as the header from level.
    private static bool IsSquareToSlope(Vector go, Route route) =>
        route.Runs.Any(r => r.Directions.Where((d, i) => i < r.Run.Legs.Count && r.Run.Legs[i].Slope != 0 && Math.Abs(d.AngleTo(go) - (Math.PI / 2)) < 1e-3).Any());
}
