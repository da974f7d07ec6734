using Rootgap.Measure;

namespace Rootgap.FitUp;

/// <summary>What to do about an error, in the fitter's words and directions.</summary>
public static class Remedy
{
    /// <summary>What the components of an error are called.</summary>
    public static readonly IReadOnlyList<string> Words =
        ["offset toward 3 or 9 o'clock", "offset toward 12 or 6 o'clock", "root gap", "tilt toward 12 or 6 o'clock", "swing toward 3 or 9 o'clock", "roll about the pipe"];

    /// <summary>The root gap at 12, 3, 6 and 9 o'clock as it is with this error, mm.</summary>
    public static IReadOnlyDictionary<int, double> Gaps(StandingJoint joint, PoseError error) =>
        StandingJoint.Clock.ToDictionary(at => at, at => new Reading.Gap(at).Measure(joint, error));

    /// <summary>The change of gap at 12, 3, 6 and 9 o'clock that turns the new part true, mm: the corrective rotation times D/2; positive opens.</summary>
    public static IReadOnlyDictionary<int, double> Change(StandingJoint joint, PoseError error)
    {
        var r = joint.Joint.Outside / 2;
        // A pitch toward 12 (rx) closes the top; a swing (ry) opens the right: both are undone.
        return new Dictionary<int, double> { [12] = r * error.Rx, [3] = -r * error.Ry, [6] = -r * error.Rx, [9] = r * error.Ry };
    }

    /// <summary>Roll in mm round the pipe's outside.</summary>
    public static double RollAround(StandingJoint joint, PoseError error) => error.Rz * joint.Joint.Outside / 2;

    /// <summary>What to do, each sentence by itself; lengths in millimetres, or in hundredths of an inch.</summary>
    public static IReadOnlyList<string> Say(StandingJoint joint, FitTolerance tolerance, Diagnosis found, Units units = Units.Millimetres)
    {
        List<string> say = [];
        foreach (var doubt in found.Again)
        {
            var off = doubt.Value - doubt.Reading.Measure(joint, found.Error);
            say.Add(Text($"The readings contradict each other: the {doubt.Reading.Text} is {Show(doubt.Reading, Math.Abs(off), units)} {(off < 0 ? "less" : "more")} than the others allow. Take the {doubt.Reading.Text} again; what follows leaves it out."));
        }
        if (found.Alike.Count > 0)
            say.Add(Text($"The {Join(found.Alike.Select(t => t.Reading.Text))} could be the wrong one as well: take {(found.Alike.Count == 1 ? "it" : "them")} again too."));
        if (found.Again.Count == 0 && found.Doubtful)
            say.Add("The readings do not agree with each other better than chance would have it, and no single one explains it: take them all again.");
        var e = Seen(found);
        if (!found.Within)
            Correct(joint, tolerance, e, units, say);
        var open = found.Unseen.Where(i => i != 5 || !joint.Joint.RollIsFree).ToList();
        if (found.Within)
        {
            say.Add(open.Count == 0
                ? "Within tolerance: tack it and weld it, as the procedure says."
                : "What was read is within tolerance.");
            if (open.Count == 0 && Close(found, tolerance) is { } near)
                say.Add(Text($"The {near} is inside its limit by less than it can be read."));
        }
        if (open.Count > 0)
            say.Add(Text($"The readings do not show the {Join(open.Select(i => Words[i]))}."));
        if (found.Next is { } next)
            say.Add(Text($"Take the {next.Text} next: it would show most."));
        return say;
    }

    private static PoseError Seen(Diagnosis found)
    {
        Span<double> v = stackalloc double[6];
        for (var i = 0; i < 6; i++)
            v[i] = found.Unseen.Contains(i) ? 0 : found.Error[i];
        return PoseError.From(v);
    }

    private static void Correct(StandingJoint joint, FitTolerance tolerance, in PoseError e, Units units, List<string> say)
    {
        var id = joint.Joint.New.Id;
        if (tolerance.Tilt.Value < e.Tilt)
        {
            var change = Change(joint, e);
            var moves = StandingJoint.Clock.Where(at => 0.05 <= Math.Abs(change[at]))
                .Select(at => Text($"{(change[at] > 0 ? "open" : "close")} {Mm(Math.Abs(change[at]), units)} at {at}"));
            say.Add(Text($"{id} is {Angles.ToDegrees(e.Tilt):0.00} degrees out of line ({Angles.ToDegrees(tolerance.Tilt.Value):0.00} allowed). Gap: {Join(moves)}."));
        }
        if (tolerance.Roll.Value < Math.Abs(e.Rz))
        {
            say.Add(Text($"{id} is rolled {Angles.ToDegrees(Math.Abs(e.Rz)):0.00} degrees ({Angles.ToDegrees(tolerance.Roll.Value):0.00} allowed): turn it {(e.Rz > 0 ? "anticlockwise" : "clockwise")}, looking from {joint.Joint.Held.Id} into it, {Mm(Math.Abs(RollAround(joint, e)), units)} round the pipe's outside."));
        }
        if (tolerance.Shift.Value < e.Shift)
        {
            List<string> moves = [];
            if (0.05 <= Math.Abs(e.X))
                moves.Add(Text($"{Mm(Math.Abs(e.X), units)} toward {(e.X > 0 ? 9 : 3)} o'clock"));
            if (0.05 <= Math.Abs(e.Y))
                moves.Add(Text($"{Mm(Math.Abs(e.Y), units)} toward {(e.Y > 0 ? 6 : 12)} o'clock"));
            say.Add(Text($"The bores are {Mm(e.Shift, units)} off each other ({Mm(tolerance.Shift.Value, units)} allowed): shift {id} {Join(moves)}."));
        }
        if (tolerance.Gap.Value < Math.Abs(e.Z))
            say.Add(Text($"The gap is {Mm(Math.Abs(e.Z), units)} too {(e.Z > 0 ? "wide" : "narrow")} at the middle ({Mm(tolerance.Gap.Value, units)} allowed): {(e.Z > 0 ? "close" : "open")} it by that all round."));
    }

    // The component that stands nearest to its limit, where its spread could carry it over.
    private static string? Close(Diagnosis found, FitTolerance tolerance)
    {
        var e = found.Error;
        double[] limits = [tolerance.Shift.Value, tolerance.Shift.Value, tolerance.Gap.Value, tolerance.Tilt.Value, tolerance.Tilt.Value, tolerance.Roll.Value];
        for (var i = 0; i < 6; i++)
        {
            if (limits[i] < Math.Abs(e[i]) + found.Sd[i])
                return Words[i];
        }
        return null;
    }

    private static string Show(Reading reading, double value, Units units) =>
        reading.IsAngle ? Text($"{Angles.ToDegrees(value):0.00} degrees") : Mm(value, units);

    private static string Mm(double mm, Units units) => units == Units.Inches ? Text($"{mm / LengthText.Inch:0.00} in") : Text($"{mm:0.0} mm");

    private static string Join(IEnumerable<string> words)
    {
        var all = words.ToList();
        return all.Count < 2 ? string.Concat(all) : string.Join(", ", all[..^1]) + " and " + all[^1];
    }

    private static string Text(FormattableString s) => FormattableString.Invariant(s);
}
