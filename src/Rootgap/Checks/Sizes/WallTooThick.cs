using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.Checks;

internal sealed class WallTooThick : Rule
{
    public override string Name => "wall-too-thick";
    public override Severity Severity => Severity.Stop;
    public override bool CanBeAccepted => false;
    public override string Says => "A wall so thick that no bore is left in the pipe.";
    public override string Why => "Twice the wall is more than the outside diameter (ASME B36.10M gives it): there is no such pipe, and its mass would come out below nothing.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var route = fabrication.Route;
        foreach (var cut in fabrication.Cuts)
        {
            var pipe = cut.Pipe;
            if (pipe.Line.Schedule.Wall is not { } wall || pipe.Outside <= 0 || (2 * wall) < pipe.Outside - Tolerance.Noise)
                continue;
            var leg = route.Runs[pipe.Run].Run.Legs[pipe.FirstLeg];
            yield return Found(leg.Source, leg.Source.Has("schedule") ? "schedule" : "go",
                Say(fabrication.Units, $"Piece {cut.Piece} is NPS {pipe.Size}, {pipe.Outside:len} outside, with a wall of {wall:small}: no bore is left."),
                "Give the wall of this size, by a run of its own behind the reducer or by the leg's `schedule`.", "No such pipe can be bought.");
        }
    }
}
