using Rootgap.Measure;

namespace Rootgap.FitUp;

/// <summary>What one reading should be.</summary>
/// <param name="Reading">What is read.</param>
/// <param name="Value">mm, or radians for an angle, in the attitude of the set-up.</param>
/// <param name="Allow">Largest change of the reading over all errors within tolerance, same unit.</param>
/// <param name="Drawn">The same without the errors that stay at joints made before, same unit.</param>
/// <param name="InLine">An angle as it will read in the line as drawn, radians; none for lengths, which do not change.</param>
/// <param name="AtSpoolEnd">What 1 mm (0.1 degree for an angle) on this reading becomes at the spool's far end, mm; 0 where the reading shows no tilt or turn.</param>
public sealed record Target(Reading Reading, double Value, double Allow, double Drawn, double? InLine, double AtSpoolEnd)
{
    /// <summary>Whether what was read is inside the allowance.</summary>
    public bool Allows(double value) => Math.Abs(value - Value) <= Allow + 1e-9;
}

/// <summary>The targets of one joint in its set-up.</summary>
public static class Targets
{
    /// <param name="joint">The joint as it stands.</param>
    /// <param name="tolerance">The limits in force.</param>
    /// <param name="drawn">The same joint without the errors that stay: it says what can be read.</param>
    public static IReadOnlyList<Target> Of(StandingJoint joint, FitTolerance tolerance, StandingJoint? drawn = null)
    {
        List<Target> targets = [];
        drawn ??= joint;
        foreach (var reading in Reading.All(drawn))
        {
            if (reading.WhyNot(drawn) is null)
                targets.Add(Of(reading, joint, tolerance, drawn));
        }

        return targets;
    }

    /// <summary>What is read of the new part itself before it is fitted, so that what it is made like is not taken for an error of fitting; none of a pipe.</summary>
    public static IReadOnlyList<Target> OfPart(StandingJoint joint, FitTolerance tolerance) =>
        joint.Joint.IsRing || joint.Joint.New.IsPipe ? []
        : [.. new Reading[] { new Reading.OutOfSquare(12), new Reading.OutOfSquare(3), new Reading.OutOfRound() }.Where(r => r.WhyNot(joint) is null).Select(r => Of(r, joint, tolerance))];

    /// <summary>The target of one reading.</summary>
    public static Target Of(Reading reading, StandingJoint joint, FitTolerance tolerance, StandingJoint? drawn = null)
    {
        Span<double> slope = stackalloc double[6];
        Slopes(reading, joint, PoseError.None, slope);
        var value = Tidy(reading.Measure(joint, PoseError.None));
        return new(
            reading, value, OfPart(reading, joint, tolerance) ?? Allowance(slope, tolerance), drawn is null || drawn == joint ? value : Tidy(reading.Measure(drawn, PoseError.None)),
            reading.IsLevel ? Tidy(AsDrawn(reading, joint, new StandingJoint(joint.Joint, joint.SetUp with { Up = Vector.Up }, joint.Mark))) : null, AtEnd(reading, joint, slope));
    }

    // A part out of square by the angle that is allowed of a face; out of round by as much as shows as the step that is allowed.
    private static double? OfPart(Reading reading, StandingJoint joint, FitTolerance tolerance) => reading switch
    {
        Reading.OutOfSquare => tolerance.Tilt.Value * (joint.Joint.Far?.Outside ?? joint.Joint.Outside),
        Reading.OutOfRound => 2 * tolerance.Shift.Value,
        _ => null,
    };

    /// <summary>How a reading changes with each component of the error, per mm and per radian, at <paramref name="at"/>.</summary>
    internal static void Slopes(Reading reading, StandingJoint joint, in PoseError at, Span<double> slopes)
    {
        Span<double> e = stackalloc double[6];
        for (var i = 0; i < 6; i++)
            e[i] = at[i];
        for (var i = 0; i < 6; i++)
        {
            // Central differences: the second-order parts cancel; steps well above rounding and far below what bends the function.
            var step = i < 3 ? 1e-3 : 1e-6;
            var here = e[i];
            e[i] = here + step;
            var more = reading.Measure(joint, PoseError.From(e));
            e[i] = here - step;
            slopes[i] = (more - reading.Measure(joint, PoseError.From(e))) / (2 * step);
            e[i] = here;
        }
    }

    // The largest change of a reading, to first order, over offsets in a circle, gap changes, tilts in a circle and turns.
    internal static double Allowance(ReadOnlySpan<double> slope, FitTolerance tolerance)
    {
        // A turn that changes nothing for the part is still kept to the tilt's limit, so that its readings stay bounded.
        var roll = double.IsInfinity(tolerance.Roll.Value) ? tolerance.Tilt.Value : tolerance.Roll.Value;
        return (Math.Sqrt((slope[0] * slope[0]) + (slope[1] * slope[1])) * tolerance.Shift.Value)
            + (Math.Abs(slope[2]) * tolerance.Gap.Value)
            + (Math.Sqrt((slope[3] * slope[3]) + (slope[4] * slope[4])) * tolerance.Tilt.Value)
            + (Math.Abs(slope[5]) * roll);
    }

    // The same line on the same part, held against the plant's own up: the clock of the set-up is kept.
    private static double AsDrawn(Reading reading, StandingJoint joint, StandingJoint inLine)
    {
        var line = reading switch
        {
            Reading.FaceLevelAlong => joint.Carried(joint.Along),
            Reading.FaceLevelAcross => joint.Carried(joint.Across),
            Reading.FlatLevel => joint.Axis,
            _ => Reading.Holes.Line(inLine),
        };
        return Math.Asin(Math.Clamp(line.Dot(Vector.Up), -1, 1));
    }

    private const double LeastLever = 15;

    // The tilt or turn that this reading shows best, seen at the far end of the spool.
    private static double AtEnd(Reading reading, StandingJoint joint, ReadOnlySpan<double> slope)
    {
        var best = 3;
        for (var i = 4; i < 6; i++)
        {
            if (Math.Abs(slope[best]) < Math.Abs(slope[i]) - 1e-9)
                best = i;
        }
        var unit = reading.IsAngle ? Angles.ToRadians(0.1) : 1;
        // A length read with hardly any lever says nothing about angles.
        if (Math.Abs(slope[best]) < (reading.IsAngle ? 1e-3 : LeastLever))
            return 0;
        var about = best switch
        {
            3 => joint.Three,
            4 => joint.Twelve,
            _ => joint.Axis,
        };
        return unit / Math.Abs(slope[best]) * about.Cross(joint.Joint.SpoolEnd - joint.Joint.Centre).Length;
    }

    // A target of -0.0 or 1e-15 is a nought.
    private static double Tidy(double value) => Math.Abs(value) < 1e-9 ? 0 : value;
}
