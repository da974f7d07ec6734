using System.Globalization;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Routes;
using Rootgap.Sums;

namespace Rootgap.Papers;

/// <summary>What is said of a lift, for paper and screen.</summary>
public static class LiftWords
{
    /// <summary>What stands on every spool sheet (common practice).</summary>
    public const string Line = "Lifting: nobody under it, tag line on, slings clear of welds by one diameter, none on a flange face or a bevel. A lifting plan is made by a competent person.";

    /// <summary>What a spool's mass does not count.</summary>
    public static string LeavesOut(Fabrication f, Spool spool)
    {
        var unknown = spool.Unweighed.Select(id => f.Route.ComponentOf(id) is { } c ? $"{id} {c.Name}" : id).ToList();
        return "Left out of the mass: water, paint, lining, insulation, bolts, gaskets, flanged valves, rigging"
            + (unknown.Count > 0 ? $", and {string.Join(", ", unknown)}: take {(unknown.Count == 1 ? "its mass" : "their masses")} from the maker's sheet before lifting" : "") + ".";
    }

    /// <summary>Where a sling is made fast: the piece and how far from its nearer end.</summary>
    public static string Where(Fabrication f, LiftHold hold)
    {
        var (start, end) = hold.Cut.Reach;
        var length = start.To(end);
        var (at, from) = hold.Along <= length / 2 ? (start, hold.Along) : (end, length - hold.Along);
        var joint = f.Route.Joints.Where(j => j.Between.Contains(hold.Cut.Pipe.Id)).OrderBy(j => j.At.To(at)).FirstOrDefault();
        var name = joint is not null && joint.At.To(at) <= EndToJoint + hold.Cut.Extra ? $"its {joint.Id} end" : "its open end";
        return $"on {hold.Cut.Piece}, {Length(f.Units, from)} from {name}";
    }

    /// <summary>A pipe's end stands this near to its joint, mm: a gap, a socket's depth, a slip-on flange.</summary>
    private const double EndToJoint = 100;

    /// <summary>How the slings are hitched (riggers' practice: a choke hitch grips and carries 75 to 80 % of the straight rating).</summary>
    public const string Choked = "Slings choked round the pipe, the bite at its top: a choke hitch grips; its rating is on the tag, about three quarters of the straight one.";

    /// <summary>A spool that turns no more than this is not said to lean, radians.</summary>
    private static readonly double Lean = Angles.ToRadians(1);

    /// <summary>What turns more than this does not lean: it rolls over on its side, radians.</summary>
    private static readonly double RollsOver = Angles.ToRadians(45);

    private static string Degrees(double angle) => string.Create(CultureInfo.InvariantCulture, $"{Angles.ToDegrees(angle):0}°");

    /// <summary>How it hangs and what to see to, what matters most first.</summary>
    public static IEnumerable<string> Of(Lift lift, Units units)
    {
        if (lift.Holds.Count == 0)
        {
            yield return lift.WhyNone switch
            {
                NoHold.PipeTooShort => "No straight pipe is long enough for a sling clear of its ends",
                NoHold.TooSteep => "As it would hang, a sling would slip along its pipe",
                NoHold.TooNear => $"Two slings on straight pipe would stand nearer than {Said(units, Lift.LeastSpan)} to each other, or one of them would lift more than four fifths",
                NoHold.InTheWay => "The legs of two slings on straight pipe would run through the spool",
                _ => "No two places on straight pipe hold the centre of mass between them",
            } + ": a rigger says how it is slung.";
            yield break;
        }

        if (lift.Holds.Count == 1)
        {
            yield return "One sling: it hangs with its centre of mass under it, not as it is drawn.";
            yield break;
        }

        if (lift.IsOutside)
            yield return "THE CENTRE OF MASS DOES NOT STAND BETWEEN THE SLINGS: it swings out till it hangs below them, and the loads here do not hold. Move them.";
        if (lift is { Holds.Count: 2, Hanging: null })
            yield return "THESE SLINGS DO NOT MEET over the spool: longer ones, or the places nearer to each other.";
        if (lift.IsLying)
            yield return "Lifted lying, not as it stands in the line: set it upright with a second hook or on the ground, by the lifting plan.";
        if (!lift.IsHeld && lift.TurnsOver)
            yield return $"IT TURNS OVER: its centre of mass stands above the line of the slings by {Said(units, lift.OffLine * -Math.Cos(lift.Roll))}. Sling it higher, or hold it with a third leg.";
        else if (!lift.IsHeld && lift.Roll > RollsOver)
            yield return $"IT ROLLS {Degrees(lift.Roll)} out of how it is drawn before it hangs still: its centre of mass stands {Said(units, lift.OffLine * Math.Sin(lift.Roll))} beside the line of the slings. Hold it with a third leg, or turn it so on the ground first.";
        else if (lift.Roll > Lean)
            yield return lift.IsHeld ? $"L3 holds it as drawn: without it the spool turns {Degrees(lift.Roll)} about the line of L1 and L2, till its centre of mass hangs below."
                : $"Choked, it leans {Degrees(lift.Roll)} about the line of the slings: its centre of mass stands {Said(units, lift.OffLine * Math.Sin(lift.Roll))} to the side.";
        if (!lift.IsHeld && !lift.TurnsOver && lift.RollInBasket > lift.Roll + Lean)
            yield return $"In a basket hitch nothing but friction keeps it from {(lift.RollInBasket > Math.PI / 2 ? "turning over" : $"rolling {Degrees(lift.RollInBasket)}")}: choke both slings.";
        if (lift.TwoCarry is { } each)
            yield return $"{(lift.Holds.Count == 3 ? "Three" : "Four")} legs: two carry. Gear of every leg for {Mass(units, each)}.";
        if (lift.Holds.Count == 3 && lift.Holds[2].Leg is null)
            yield return "L3 is drawn up with a chain block until the spool stands as drawn.";
        if (lift.Hanging is { } hanging && Math.Abs(hanging.Tilt) > Angles.ToRadians(1))
            yield return string.Create(CultureInfo.InvariantCulture, $"With these legs it hangs {Angles.ToDegrees(Math.Abs(hanging.Tilt)):0.#}° off level, {(hanging.Tilt > 0 ? "L2" : "L1")} higher.");
        if (lift.Alike is var (length, alike) && lift.HookUp is not null && Math.Abs(alike.Tilt) > Angles.ToRadians(0.5))
            yield return string.Create(CultureInfo.InvariantCulture, $"Two legs alike, {Said(units, length)}: it hangs {Angles.ToDegrees(Math.Abs(alike.Tilt)):0.#}° off level, {(alike.Tilt > 0 ? "L2" : "L1")} higher; pulls {Mass(units, alike.First.Tension)} and {Mass(units, alike.Second.Tension)}.");
        if (lift.Hanging is { IsSlack: true })
            yield return "One leg hangs slack: the centre of mass does not lie between the slings. Move them.";
        if (lift.Holds.Any(h => h.ToLevel < Slings.Flattest))
            yield return "A leg lies under 45° to the level: not so. Longer legs, or a beam.";
    }

    // In a sentence, with its unit.
    private static string Said(Units units, double mm) => Length(units, mm) + (units == Units.Inches ? "" : " mm");

    public static string Length(Units units, double mm) => units == Units.Inches ? LengthText.FeetInches(mm) : LengthText.WholeMillimetres(mm);

    public static string Mass(Units units, double kg) => units == Units.Inches
        ? LengthText.WholeMillimetres(kg / Amount.Pound) + " lb"
        : LengthText.Millimetres(kg, kg < 100 ? 1 : 0) + " kg";
}
