using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>A pipe between two fittings of which one is threaded and the other has a socket.</summary>
internal sealed class ThreadAndSocket : Rule
{
    public override string Name => "thread-and-socket";
    public override Severity Severity => Severity.Warn;
    public override string Says => "A pipe that is no nipple is threaded at one end and goes into a socket at the other, and the list does not name the ends of the fitting.";
    public override string Why => "A line is threaded or socket-welded; where it changes a nipple stands, threaded at one end (common practice). Mostly the `ends` of one fitting are a slip.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var route = fabrication.Route;
        foreach (var pipe in route.Pipes)
        {
            if (pipe.Nipple is null && !IsListedSo(route, pipe) && (pipe.AtStart.Kind, pipe.AtEnd.Kind) is (EndKind.Socket, EndKind.Threaded) or (EndKind.Threaded, EndKind.Socket))
            {
                yield return Found(route.RowOf(pipe.Run, pipe.LastLeg), "to", $"This pipe is threaded at its {(pipe.AtStart.Kind == EndKind.Threaded ? "start" : "end")} and goes into a socket at its {(pipe.AtStart.Kind == EndKind.Socket ? "start" : "end")}.",
                    "Look at the `ends` of the two fittings; where it is meant, write the pipe as a `nipple`.", "The part that comes does not fit the pipe.");
            }
        }
    }

    /// <summary>The list names the ends of a fitting at the pipe: it was ordered so.</summary>
    private static bool IsListedSo(Route route, PipePiece pipe) =>
        route.Joints.Where(j => j.Between.Contains(pipe.Id)).SelectMany(j => j.Between).Select(route.ComponentOf).Any(c => c is InLine { Item.Words.Ends: { } listed } fitting && listed == fitting.Ends);
}
