using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Routes;

namespace Rootgap.Checks;

internal sealed class ThreadOnThinPipe : Rule
{
    public override string Name => "thread-on-thin-pipe";
    public override Severity Severity => Severity.Warn;
    public override string Says => "A thread on pipe of schedule 5, 10, 5S or 10S.";
    public override string Why => "The thread would leave next to no wall: these schedules are not threaded (ASME B36.19M, note to its table).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var pipe in fabrication.Route.Pipes)
        {
            var isThreaded = pipe.AtStart.Kind == EndKind.Threaded || pipe.AtEnd.Kind == EndKind.Threaded || pipe.FreeStart == OpenEnds.Threaded || pipe.FreeEnd == OpenEnds.Threaded;
            if (!isThreaded || pipe.Line.Schedule.Name is not ("5" or "10" or "5S" or "10S"))
                continue;
            var legs = fabrication.Route.Runs[pipe.Run].Run.Legs;
            var isAtStart = pipe.AtStart.Kind == EndKind.Threaded || pipe.FreeStart == OpenEnds.Threaded;
            yield return Found(legs[isAtStart ? pipe.FirstLeg : pipe.LastLeg].Source, "schedule", Say(fabrication.Units, $"Pipe of schedule {pipe.Line.Schedule.Name}, wall {pipe.Wall:small}, is to be threaded."), "Use a heavier schedule, or weld it.", "The thread cuts through the wall.");
        }
    }
}
