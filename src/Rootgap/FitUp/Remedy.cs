using Rootgap.Measure;

namespace Rootgap.FitUp;

/// <summary>What to do about an error, in the fitter's words and directions.</summary>
public static class Remedy
{
    /// <summary>What the components of an error are called.</summary>
    public static readonly IReadOnlyList<string> Words =
        ["offset toward 3 or 9 o'clock", "offset toward 12 or 6 o'clock", "root gap", "tilt toward 12 or 6 o'clock", "swing toward 3 or 9 o'clock", "roll about the pipe"];

    /// <summary>A verdict in words.</summary>
    public static string Of(Verdict verdict) => verdict switch
    {
        Verdict.Within => "within",
        Verdict.NotWithin => "not within",
        Verdict.AsFarAsRead => "as far as it is read",
        _ => "nothing read",
    };

    /// <summary>The root gap at 12, 3, 6 and 9 o'clock as it is with this error, mm.</summary>
    public static IReadOnlyDictionary<int, double> Gaps(StandingJoint joint, PoseError error) =>
        StandingJoint.Clock.ToDictionary(at => at, at => new Reading.Gap(at).Measure(joint, error));

    /// <summary>The change of gap at 12, 3, 6 and 9 o'clock that turns the new part true, mm: the corrective rotation times half the inside diameter, where the gap is read; positive opens.</summary>
    public static IReadOnlyDictionary<int, double> Change(StandingJoint joint, PoseError error)
    {
        var r = joint.Joint.Inside / 2;
        // A pitch toward 12 (rx) closes the top; a swing (ry) opens the right: both are undone.
        return new Dictionary<int, double> { [12] = Tidy(r * error.Rx), [3] = Tidy(-r * error.Ry), [6] = Tidy(-r * error.Rx), [9] = Tidy(r * error.Ry) };
    }

    /// <summary>Roll in mm round the pipe's outside.</summary>
    public static double RollAround(StandingJoint joint, PoseError error) => error.Rz * joint.Joint.Outside / 2;

    private static double Tidy(double value) => Math.Abs(value) < 1e-12 ? 0 : value;

    /// <summary>What to do, each sentence by itself; lengths in millimetres, or in hundredths of an inch.</summary>
    public static IReadOnlyList<string> Say(StandingJoint joint, FitTolerance tolerance, Diagnosis found, Units units = Units.Millimetres)
    {
        List<string> say = [];
        joint = joint.MadeSo(found.OfPart);
        if (found.Verdict == Verdict.NothingRead)
            say.Add("Nothing was read: nothing can be said of this joint.");
        foreach (var t in found.OfPart)
        {
            say.Add(t.Reading is Reading.OutOfRound
                ? Text($"{joint.Joint.New.Label} is out of round by {Mm(t.Value, units)}: up to {Mm(t.Value / 2, units)} of step is its own, wherever it is set.")
                : Text($"{joint.Joint.New.Label} is made out of square, {Mm(Math.Abs(t.Value), units)} {(t.Value < 0 ? "back" : "out")} at {t.Reading.Position}: what is read on its face is taken from there, and the joint answers only for the rest."));
        }

        foreach (var pair in found.Again.GroupBy(t => t.Reading).Where(g => g.Count() > 1))
            say.Add(Text($"The {pair.Key.Text} is given {pair.Count()} times with different figures ({string.Join(", ", pair.Select(t => Told(t.Reading, t.Value, units)))}): read it again. It is left out of what follows."));
        foreach (var doubt in found.Again.GroupBy(t => t.Reading).Where(g => g.Count() == 1).Select(g => g.Single()))
        {
            var off = doubt.Value - doubt.Reading.Measure(joint, found.Error);
            say.Add(Text($"The readings contradict each other: the {doubt.Reading.Text} is {Small(doubt.Reading, Math.Abs(off), units)} {(off < 0 ? "less" : "more")} than the others allow. Take the {doubt.Reading.Text} again; what follows leaves it out."));
        }
        if (found.Alike.Count > 0)
            say.Add(Text($"The {Join(found.Alike.Select(t => t.Reading.Text))} could be the wrong one as well: take {(found.Alike.Count == 1 ? "it" : "them")} again too."));
        if (found.Again.Count == 0 && found.Doubtful)
            say.Add("The readings do not agree with each other better than chance would have it, and no single one explains it: take them all again.");
        var e = Seen(found);
        var before = say.Count;
        if (!tolerance.Holds(e))
            Correct(joint, tolerance, found, e, units, say);
        foreach (var t in found.Outside.DistinctBy(t => t.Reading))
        {
            var target = Targets.Of(t.Reading, joint, tolerance);
            say.Add(Text($"The {t.Reading.Text} is {Told(t.Reading, t.Value, units)}, {Told(t.Reading, target.Value, units)} ± {Small(t.Reading, target.Allow, units)} is asked: outside its allowance by itself."));
        }
        if (joint.Joint.IsWelded && say.Count > before)
            say.Add("It is welded: nothing is moved by this. What it makes of the spool is in the cards of the joints still open and in the final check; mending a weld is the procedure's business.");
        else if (say.Count > before && !tolerance.Holds(e))
            say.Add("Move it only while it is tacked, and support it before a tack is cut; a welded joint is the procedure's business.");
        var open = found.Unseen.Where(i => i != 5 || !joint.Joint.RollIsFree).ToList();
        if (found.Verdict == Verdict.Within)
        {
            say.Add(joint.Joint.IsWelded ? "Within tolerance after welding." : "Within tolerance: tack it and weld it, as the procedure says.");
            if (Close(found, tolerance) is { } near)
                say.Add(Text($"The {near} is inside its limit by less than it can be read."));
        }
        if (found.Verdict == Verdict.AsFarAsRead)
            say.Add(joint.Joint.IsWelded ? "Within tolerance after welding, as far as it is read." : "Within tolerance as far as it is read; that is not enough to weld it.");
        if (open.Count > 0 && found.Verdict != Verdict.NothingRead)
            say.Add(Text($"The readings do not show the {Join(open.Select(i => Words[i]))}."));
        if (found.Next.Count > 0)
            say.Add(Text($"Take next: {Join(found.Next.Select(r => r.Text))}."));
        return say;
    }

    /// <summary>What has moved between two goings-over of a joint, as between before and after a tack: of what both saw, what is beyond how well it was read.</summary>
    public static string Since(Diagnosis before, Diagnosis now, Units units = Units.Millimetres)
    {
        List<string> moved = [];
        for (var i = 0; i < 6; i++)
        {
            if (before.Unseen.Contains(i) || now.Unseen.Contains(i))
                continue;
            var by = now.Error[i] - before.Error[i];
            if (Math.Abs(by) <= Math.Sqrt((before.Sd[i] * before.Sd[i]) + (now.Sd[i] * now.Sd[i])))
                continue;
            var (plus, minus) = i switch { 0 => ("toward 3 o'clock", "toward 9 o'clock"), 1 => ("toward 12 o'clock", "toward 6 o'clock"), 2 => ("wider", "narrower"), 3 => ("leaning to 12", "leaning to 6"), 4 => ("leaning to 9", "leaning to 3"), _ => ("clockwise", "anticlockwise") };
            moved.Add(Text($"{(i < 3 ? Mm(Math.Abs(by), units) : Text($"{Angles.ToDegrees(Math.Abs(by)):0.00} degrees"))} {(by > 0 ? plus : minus)}"));
        }

        return moved.Count > 0 ? Text($"Since it was gone over before it has moved {Join(moved)}.") : "Since it was gone over before nothing has moved that these readings show.";
    }

    private static PoseError Seen(Diagnosis found)
    {
        Span<double> v = stackalloc double[6];
        for (var i = 0; i < 6; i++)
            v[i] = found.Unseen.Contains(i) ? 0 : found.Error[i];
        return PoseError.From(v);
    }

    // What is beyond its limit, each with what it becomes at the spool's far end. A movement that is smaller than its own uncertainty is not asked for.
    private static void Correct(StandingJoint joint, FitTolerance tolerance, Diagnosis found, in PoseError e, Units units, List<string> say)
    {
        var isWelded = joint.Joint.IsWelded;
        var (id, reach) = (joint.Joint.New.Label, joint.Joint.SpoolEnd - joint.Joint.Centre);
        double Sd(int i, int k, double size, double a, double b) => size > 0 ? Math.Sqrt((found.Sd[i] * found.Sd[i] * a * a) + (found.Sd[k] * found.Sd[k] * b * b)) / size : 0;
        if (tolerance.Tilt.Value < e.Tilt)
        {
            var far = ((joint.Three * e.Rx) + (joint.Twelve * e.Ry)).Cross(reach).Length;
            var (change, sd) = (Change(joint, e), Sd(3, 4, e.Tilt, e.Rx, e.Ry));
            var moves = StandingJoint.Clock.Where(at => 0.05 <= Math.Abs(change[at]))
                .Select(at => Text($"{(change[at] > 0 ? "open" : "close")} {Mm(Math.Abs(change[at]), units)} at {at}"));
            say.Add(Text($"{id} is {Angles.ToDegrees(e.Tilt):0.00} degrees out of line ({Angles.ToDegrees(tolerance.Tilt.Value):0.00} allowed); at the spool's end that is {Mm(far, units)}. ")
                + (isWelded ? "" : sd < e.Tilt ? Text($"Gap: {Join(moves)}.") : Text($"It is read no better than ± {Angles.ToDegrees(sd):0.00}: read the gap all round and the tapes first.")));
        }
        if (tolerance.Roll.Value < Math.Abs(e.Rz))
        {
            var far = (joint.Axis * e.Rz).Cross(reach).Length;
            say.Add(Text($"{id} is rolled {Angles.ToDegrees(Math.Abs(e.Rz)):0.00} degrees {(e.Rz > 0 ? "clockwise" : "anticlockwise")} ({Angles.ToDegrees(tolerance.Roll.Value):0.00} allowed); at the spool's end that is {Mm(far, units)}. ")
                + (isWelded ? "" : found.Sd[5] < Math.Abs(e.Rz)
                    ? Text($"Turn it {(e.Rz > 0 ? "anticlockwise" : "clockwise")}, looking from {joint.Joint.Held.Label} into it, {Mm(Math.Abs(RollAround(joint, e)), units)} round the pipe's outside.")
                    : Text($"It is read no better than ± {Angles.ToDegrees(found.Sd[5]):0.00}: read a level that shows the roll, or the holes, first.")));
        }
        if (tolerance.Shift.Value < e.Shift)
        {
            List<string> moves = [];
            if (0.05 <= Math.Abs(e.X))
                moves.Add(Text($"{Mm(Math.Abs(e.X), units)} toward {(e.X > 0 ? 9 : 3)} o'clock"));
            if (0.05 <= Math.Abs(e.Y))
                moves.Add(Text($"{Mm(Math.Abs(e.Y), units)} toward {(e.Y > 0 ? 6 : 12)} o'clock"));
            var sd = Sd(0, 1, e.Shift, e.X, e.Y);
            say.Add(Text($"The bores are {Mm(e.Shift, units)} off each other ({Mm(tolerance.Shift.Value, units)} allowed), and so is the spool's end. ")
                + (isWelded ? "" : sd < e.Shift ? Text($"Shift {id} {Join(moves)}.") : Text($"It is read no better than ± {Mm(sd, units)}: read the hi-lo first.")));
        }
        if (tolerance.Gap.Value < Math.Abs(e.Z))
        {
            say.Add(isWelded ? Text($"It has drawn in {Mm(Math.Abs(e.Z), units)} {(e.Z > 0 ? "less" : "more")} than it should ({Mm(tolerance.Gap.Value, units)} allowed).")
                : Text($"The gap is {Mm(Math.Abs(e.Z), units)} too {(e.Z > 0 ? "wide" : "narrow")} at the middle ({Mm(tolerance.Gap.Value, units)} allowed), and the spool by as much too {(e.Z > 0 ? "long" : "short")}. ")
                + (found.Sd[2] < Math.Abs(e.Z) ? Text($"{(e.Z > 0 ? "Close" : "Open")} it by that all round.") : Text($"It is read no better than ± {Mm(found.Sd[2], units)}: read the gap all round first.")));
        }
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

    private static string Told(Reading reading, double value, Units units) => FitWords.In(units).Told(reading, value);

    // An allowance or a difference of a reading, with its unit.
    private static string Small(Reading reading, double value, Units units) => reading.IsAngle ? FitWords.In(units).ShowSmall(reading, value) : Mm(value, units);

    private static string Mm(double mm, Units units) => FitWords.In(units).Small(mm);

    private static string Join(IEnumerable<string> words)
    {
        var all = words.ToList();
        return all.Count < 2 ? string.Concat(all) : string.Join(", ", all[..^1]) + " and " + all[^1];
    }

    private static string Text(FormattableString s) => FormattableString.Invariant(s);
}
