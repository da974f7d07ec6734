using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.Checks;

internal sealed class FittingClassForWall : Rule
{
    public override string Name => "fitting-class-for-wall";
    public override Severity Severity => Severity.Note;
    public override string Says => "A forged fitting of a lower class than the wall of its pipe calls for.";
    public override string Why => "Socket-weld class 3000 goes with schedule 80, 6000 with 160, 9000 with XXS; threaded 2000 with 80, 3000 with 160, 6000 with XXS (ASME B16.11 table 2).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var units = fabrication.Route.Drawing.Units;
        foreach (var run in fabrication.Route.Runs)
        {
            for (var i = 0; i < run.Sizes.Count; i++)
            {
                var leg = run.Run.Legs[i];
                if (leg.To is not (ElbowPoint { Bend: null } or TeePoint or CapPoint) || Limit(leg.Line) is not { } limit)
                    continue;
                if (Walls.Of(run.Sizes[i], new Schedule(limit), units) is not { } most || Walls.Of(run.Sizes[i], leg.Line.Schedule, units) is not { } wall || wall <= most + Tolerance.Noise)
                    continue;
                yield return Found(leg.Source, "fitting class", Say(fabrication.Units, $"A class {leg.Line.FittingClass} fitting goes with schedule {limit}, wall {most:small}; the pipe's wall is {wall:small}."), "Ask whether the next class is meant.");
            }
        }
    }

    private static string? Limit(Line line) => (line.Ends, line.FittingClass) switch
    {
        (FittingEnds.Socket, "3000") or (FittingEnds.Threaded, "2000") => "80",
        (FittingEnds.Socket, "6000") or (FittingEnds.Threaded, "3000") => "160",
        _ => null,
    };
}
