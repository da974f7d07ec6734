using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>A check valve in a line that flows down.</summary>
internal sealed class CheckValveFlowsDown : Rule
{
    private static readonly double Downward = Math.Sin(30 * Math.PI / 180);

    public override string Name => "check-valve-flows-down";
    public override Severity Severity => Severity.Warn;
    public override string Says => "By the run's `flow`, the fluid goes down through a check valve.";
    public override string Why => "A swing check's disc hangs open in downward flow and does not close in time (common practice: level, or upward flow).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var route = fabrication.Route;
        foreach (var c in route.Components)
        {
            if (c is not Valve { Kind: ValveKind.Check } || c.Leg < 0 || route.Runs[c.Run].Run.FlowsAlong is not { } along)
                continue;
            var down = -(along ? 1 : -1) * route.Runs[c.Run].Directions[c.Leg].Z;
            if (down >= Downward)
                yield return Found(c.Source, "kind", "The fluid goes down through this check valve: it does not close by its own weight.", "Look first whether the run's `flow` is right. If it is, put the valve in a level or rising leg, or use one with a spring and accept this.");
        }
    }
}
