using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Checks;

internal sealed class WallStep : Rule
{
    public override string Name => "wall-step";
    public override Severity Severity => Severity.Warn;
    public override string Says => "Two walls meet at a butt weld with a step inside greater than the shop's hi-lo.";
    public override string Why => "Beyond the procedure's limit the thicker wall is bored to a taper (ASME B31.3 328.4.3 and figure 328.4.3, ASME B16.25; the limit is the shop's `hi-lo`).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var route = fabrication.Route;
        if (HasOneSchedule(route))
            yield break;
        foreach (var joint in route.Joints)
        {
            if (joint is not { Kind: JointKind.Butt, Between: [var one, var other] } || route.PartOf(one) is not { } a || route.PartOf(other) is not { } b || ScheduleOf(a) == ScheduleOf(b))
                continue;
            if (Walls.Of(joint.Size, ScheduleOf(a), route.Drawing.Units) is not { } wallA || Walls.Of(joint.Size, ScheduleOf(b), route.Drawing.Units) is not { } wallB)
                continue;
            var step = Math.Abs(wallA - wallB);
            if (step <= route.Drawing.Shop.HiLo + Tolerance.Noise)
                continue;
            // Reducers and outlets are ordered with the wall of each end, and so are the branches of tees.
            var isTwoWalled = a.IsTwoWalled || b.IsTwoWalled;
            yield return Found(joint.Source, "schedule",
                Say(fabrication.Units, $"Wall {wallA:small} meets wall {wallB:small} at {joint.Id}: a step of {step:small} inside, and {route.Drawing.Shop.HiLo:len} is the limit."),
                isTwoWalled ? "Order the fitting with the wall of each end." : "Bore the thicker end to a taper, or mend the schedule.", "The root is welded over a step.",
                isTwoWalled ? Severity.Note : null);
        }
    }

    /// <summary>An outlet is made to its branch, and the list says to which.</summary>
    private static Schedule ScheduleOf(Part part) => part is Outlet { Item.Schedule: { Length: > 0 } listed } ? new(listed) : part.Line.Schedule;

    private static bool HasOneSchedule(Route route)
    {
        var drawn = route.Drawing.Line.Schedule;
        foreach (var pipe in route.Pipes)
        {
            if (pipe.Line.Schedule != drawn)
                return false;
        }

        foreach (var c in route.Components)
        {
            if (c.Line.Schedule != drawn)
                return false;
        }

        return true;
    }
}
