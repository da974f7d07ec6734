using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>A low point without a drain.</summary>
internal sealed class LowPointWithoutDrain : Rule
{
    public override string Name => "low-point-without-drain";
    public override Severity Severity => Severity.Note;
    public override string Says => "A run goes down and up again, and nothing branches off at the low stretch.";
    public override string Why => "Water stays there after the pressure test and in winter (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var pocket in Pocket.AllOf(fabrication.Route, -1))
        {
            if (pocket.HasBranch)
                continue;
            yield return Found(fabrication.Route.RowOf(pocket.Run, pocket.FirstLeg), "to", Say(fabrication.Units, $"The line is at its lowest here, up {fabrication.Route.Runs[pocket.Run].Points[pocket.FirstLeg + 1].Z:len0}, and has no drain."), "Ask for a drain: an outlet with a valve.");
        }
    }
}
