using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>An open end that is prepared otherwise than the line is joined.</summary>
internal sealed class OpenEndOdd : Rule
{
    public override string Name => "open-end-odd";
    public override Severity Severity => Severity.Note;
    public override string Says => "A threaded line ends in a plain or bevelled pipe end, or a butt-welded one, with no other thread and no socket in the run, in a threaded end.";
    public override string Why => "What comes next is mostly joined as the line is (common practice); `ends` of an open end is bevel where nothing is said.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var route = fabrication.Route;
        foreach (var (leg, r) in route.Drawing.Runs.SelectMany((run, r) => run.Legs.Select(leg => (leg, r))))
        {
            if (leg.To is not OpenPoint open)
                continue;
            if (leg.Line.Ends == FittingEnds.Threaded && open.Ends != OpenEnds.Threaded)
                yield return Found(leg.Source, "ends", $"This line is threaded, and its pipe ends {(open.Ends == OpenEnds.Plain ? "plain" : "bevelled for a weld")} here.", "Write `ends: threaded` if a fitting is screwed on.", "The end is prepared for another joint than it gets.");
            else if (leg.Line.Ends == FittingEnds.Butt && open.Ends == OpenEnds.Threaded && !route.Joints.Any(j => j.Run == r && j.Kind is JointKind.Threaded or JointKind.Socket))
                yield return Found(leg.Source, "ends", "This line is butt-welded, and its pipe ends threaded here.", "Look whether a thread is meant.");
        }
    }
}
