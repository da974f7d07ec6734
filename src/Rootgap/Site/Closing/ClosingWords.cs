using Rootgap.Measure;
using Rootgap.Site.Surveys;

namespace Rootgap.Site.Closing;

/// <summary>Says a closing as one fitter says it to another.</summary>
/// <param name="units">In which lengths are said.</param>
public sealed class ClosingWords(Units units)
{
    private string Mm => units == Units.Inches ? "" : " mm";

    /// <summary>What is to be said of one closing alone: for a page that shows it.</summary>
    public IReadOnlyList<string> Say(LineClosing closing, Closure closure) =>
    [
        .. Of(closing.Adjustment.Line, closure),
        .. Readings(closing),
        .. closure.Closes && closing.Closures.All(c => c.Length != Verdict.NotKnownYet) ? Moves(closing) : [],
        .. closing.Adjustment.Survey.Existing.SelectMany(Existing),
    ];

    /// <summary>All that is to be said, what matters most first.</summary>
    public IReadOnlyList<string> Say(LineClosing closing)
    {
        var say = new List<string>();
        foreach (var closure in closing.Closures)
            say.AddRange(Of(closing.Adjustment.Line, closure));
        if (closing.Closures.Count == 0)
            say.Add("There is no final-fit weld left to close.");
        foreach (var joint in closing.Joints.Where(j => !j.IsWithin && closing.Closures.All(c => c.Joint != j.Joint)))
            say.Add(Text($"{joint.Joint.Id} is out: {Off(joint)}."));
        say.AddRange(Readings(closing));
        say.AddRange(Unseen(closing));
        if (closing.Next is { } next)
            say.Add(Text($"Read next: {next.Reading.Says(units)}. The doubt of {next.Closing.Joint.Id} goes from {next.Before:0.0#} to {next.After:0.0#} (1 is as good as its limits)."));
        if (closing.Closures.All(c => c.Length != Verdict.NotKnownYet && c.Angle != Verdict.NotKnownYet && c.Offset != Verdict.NotKnownYet))
            say.AddRange(Moves(closing));
        else if (closing.Movement.IsNeeded)
            say.Add("What is to be moved is said once the closings are known: read on first.");
        say.AddRange(closing.Adjustment.Survey.Existing.SelectMany(Existing));
        if (Math.Abs(closing.Adjustment.Survey.Steel - Survey.Drawn) >= 1)
            say.Add(units == Units.Inches
                ? Text($"All figures hold for steel at {closing.Adjustment.Survey.Steel:celsius}. Ask again if it is over 9 F warmer or colder when the cut is made: {closing.Adjustment.Expansion * 5 * 1200 * LengthText.Inch:small} on 100 ft.")
                : Text($"All figures hold for steel at {closing.Adjustment.Survey.Steel:0.#} C. Ask again if it is over 5 C warmer or colder when the cut is made: {closing.Adjustment.Expansion * 5 * 1e4:small}{Mm} on {1e4:len0}{Mm}."));
        return say;
    }

    private IEnumerable<string> Of(SiteLine line, Closure c)
    {
        var part = line.NameOf(c.Joint.Long!);
        var o = c.Opening;
        yield return c.Length switch
        {
            Verdict.Closes => Text($"{c.Joint.Id}: cut {o.Mean:cut} off {part} (known to {2 * c.Sd[0]:off}): at 12 {o.Round[0]:cut}, 3 {o.Round[4]:cut}, 6 {o.Round[8]:cut}, 9 {o.Round[12]:cut}, back from its end as it is."),
            Verdict.DoesNotClose => Text($"{c.Joint.Id}: the pipe is {o.Short:off} short; no cut mends that. Weld in a piece no shorter than the shop's shortest, or move what stands (below)."),
            _ => Text($"{c.Joint.Id}: the length is not known yet: {o.Mean:cut} to cut off by what is read, but only to {2 * c.Sd[0]:off}. Do not cut."),
        };
        if (c.IsTooShort)
            yield return Text($"{c.Joint.Id}: {c.Stock.Piece - o.Round.Max():len0} would be left of {part}, under the shop's shortest of {c.Stock.Shortest:len0}: take a new piece.");
        if (c.Angle == Verdict.Closes)
            yield return Text($"{c.Joint.Id}: the two axes are {Angles.ToDegrees(o.Angle):0.00} degrees off line, {c.Slant:off}{Mm} round the pipe; {c.GapVariation:off} is allowed.");
        else if (c.Angle == Verdict.DoesNotClose)
            yield return Text($"{c.Joint.Id}: {Angles.ToDegrees(o.Angle):0.00} degrees between the two axes show as {c.Slant:off}{Mm} round the pipe, over {c.GapVariation:off}. Not by a mitred cut: re-level a support or ease a loose joint (below).");
        else
            yield return Text($"{c.Joint.Id}: the angle is not known yet: {c.Slant:off}{Mm} round the pipe by what is read, to {2 * c.Joint.Outside * Math.Max(c.Sd[3], c.Sd[4]):off}; {c.GapVariation:off} is allowed.");
        var aside = Text($"{Math.Abs(o.OffsetUp):off} toward {(o.OffsetUp < 0 ? 6 : 12)} and {Math.Abs(o.OffsetSide):off} toward {(o.OffsetSide < 0 ? 9 : 3)}");
        yield return c.Offset switch
        {
            Verdict.Closes => Text($"{c.Joint.Id}: the other side stands {aside} off the pipe's line; {c.OffsetLimit:off} in all is allowed."),
            Verdict.DoesNotClose => Text($"{c.Joint.Id}: the other side stands {aside} off the pipe's line, over the {c.OffsetLimit:off} that hi-lo allows. No cut takes that out."),
            _ => Text($"{c.Joint.Id}: the offset is not known yet: {aside} by what is read, to {2 * Math.Max(c.Sd[1], c.Sd[2]):off}; {c.OffsetLimit:off} is allowed."),
        };
        if (c.Joint.Joint.Kind == Routes.JointKind.Branch)
            yield return $"{c.Joint.Id} stands on a header: the saddle's own shape comes on top of these figures.";
    }

    private string Off(JointStand joint)
    {
        var (e, radius) = (joint.Off, (joint.Joint.Bolting?.Circle ?? joint.Joint.Outside) / 2);
        return Text($"{Math.Abs(e.Y):off} toward {(e.Y < 0 ? 6 : 12)}, {Math.Abs(e.X):off} toward {(e.X < 0 ? 9 : 3)}, {Math.Abs(e.Z):off} too {(e.Z < 0 ? "near" : "far")}, {Angles.ToDegrees(e.Tilt):0.00} degrees out of line, {Math.Abs(e.Rz) * radius:off}{Mm} rolled");
    }

    private IEnumerable<string> Readings(LineClosing closing)
    {
        if (closing.Again is var (worst, without))
        {
            var isAngle = worst.Taken.Reading.IsAngle;
            var off = isAngle ? Text($"{Math.Abs(Angles.ToDegrees(worst.Residual)):0.0#} degrees") : Text($"{Math.Abs(worst.Residual):off}{Mm}");
            yield return Text($"Take reading {worst.Taken.Entry + 1} again ({worst.Taken.Reading.Says(units)}): the others say it is {off} too {(worst.Residual < 0 ? "small" : "great")}, {Math.Abs(worst.Standardised):0.0} times its spread.{string.Concat(without.Select(c => Text($" Without it {c.Joint.Id} would be cut {c.Opening.Mean:cut}.")))}");
        }

        var single = closing.Adjustment.Readings.Where(r => r.IsUnchecked).ToList();
        if (single.Count > 0)
            yield return Text($"Nothing checks {(single.Count == 1 ? "reading" : "readings")} {string.Join(", ", single.Select(r => r.Taken.Entry + 1).Distinct())}: a slip there would not show. Read {(single.Count == 1 ? "it" : "them")} twice.");
    }

    private IEnumerable<string> Unseen(LineClosing closing)
    {
        foreach (var closure in closing.Closures.Where(c => c.Unseen.Count > 0))
        {
            var words = closure.Unseen.Select(i => i switch { 0 => "length", 1 => "offset up and down", 2 => "offset sideways", 3 => "angle up and down", _ => "angle sideways" });
            yield return $"The readings do not see of {closure.Joint.Id}: {string.Join(", ", words)}.";
        }
    }

    private IEnumerable<string> Moves(LineClosing closing)
    {
        var movement = closing.Movement;
        if (!movement.IsNeeded)
            yield break;
        foreach (var moved in movement.Moves)
        {
            yield return Text($"Move {string.Join(" with ", moved.Bodies.Select(b => b.Name))}: {Way(moved.Shift)}{Turn(moved)}.");
            foreach (var body in moved.Bodies)
            {
                var ends = closing.Adjustment.Line.Ends.Where(e => e.Body == body).Select(e => Text($"{e.Words} to EL {movement.After.Face(e).Z:cut}"));
                yield return $"Then its ends stand: {string.Join(", ", ends)}.";
                var heights = SupportHeight.Of(closing, moved, body).Select(h => Text($"{h.Support.Tag} to EL {h.After:cut} under the pipe ({Math.Abs(h.After - h.Before):off} {(h.After < h.Before ? "down" : "up")})")).ToList();
                if (heights.Count > 0)
                    yield return $"Set its supports: {string.Join(", ", heights)}.";
            }
        }

        foreach (var joint in closing.Joints.Where(j => j.State != "made" && movement.Moves.Any(m => m.Bodies.Contains(j.Joint.First.Body) || m.Bodies.Contains(j.Joint.Second.Body))))
        {
            var after = JointAfter.Of(closing, joint.Joint);
            var four = Text($"12 {after.Gaps[0]:off}, 3 {after.Gaps[1]:off}, 6 {after.Gaps[2]:off}, 9 {after.Gaps[3]:off}");
            yield return Text($"{joint.Joint.Id} after that: {(after.IsCut ? "cut off at" : "gap at")} {four}; hi-lo {after.Up:off} toward 12, {after.Side:off} toward 3; roll {after.RollMm:off}{Mm} round the {(joint.Joint.IsBolted ? "bolt circle" : "outside")}.");
        }

        // The worst few: the search shares what is left out over all joints that it can ease.
        foreach (var remains in movement.Remaining.OrderByDescending(r => r.Over).Take(5))
            yield return remains.What == "length"
                ? Text($"What no movement within the limits takes away: {remains.Joint} is {remains.Over:off}{Mm} short.")
                : Text($"What no movement within the limits takes away: {remains.Joint}, {remains.What}: {remains.Over:0.0#} times its limit over it.");
        if (movement.Remaining.Count > 0)
            yield return "Another joint has to be opened, a piece made anew, or an expansion of the limits agreed with the engineer; nothing is pulled together.";
        if (!movement.IsSettled)
            yield return "The search for the least movement did not come to rest: take it as a first try, set it, and measure again.";
        if (movement.Moves.Count > 0)
            yield return "Before anything is jacked or eased: weight on the hook, nobody in the line of force, supports and loose joints as the lifting plan and the site's rules say. Never pull flanges together by their bolts.";
    }

    private string Way(Vector shift)
    {
        var parts = new[] { (shift.X, "east", "west"), (shift.Y, "north", "south"), (shift.Z, "up", "down") }.Where(p => Math.Abs(p.Item1) >= 0.05).Select(p => Text($"{Math.Abs(p.Item1):off} {(p.Item1 < 0 ? p.Item3 : p.Item2)}")).ToList();
        return parts.Count > 0 ? string.Join(", ", parts) : "no shift";
    }

    private string Turn(Moved moved)
    {
        var degrees = Angles.ToDegrees(moved.Turn.Length);
        if (degrees < 0.005)
            return "";
        var parts = new[] { (moved.Turn.X, "east"), (moved.Turn.Y, "north"), (moved.Turn.Z, "the upright") }.Where(p => Math.Abs(Angles.ToDegrees(p.Item1)) >= 0.005).Select(p => Text($"{Angles.ToDegrees(p.Item1):+0.00;-0.00} degrees about {p.Item2}"));
        return Text($"; turned {string.Join(", ", parts)} (right-handed, about EL {moved.Centre.Z:len0}, east {moved.Centre.X:len0}, north {moved.Centre.Y:len0})");
    }

    private IEnumerable<string> Existing(ExistingPipe pipe)
    {
        if (pipe.Outside is { } outside)
            yield return Text($"{pipe.End.Words}: {outside:off} outside by {(pipe.Girth is null ? "two diameters" : "its girth")}{(pipe.Ovality is { } o ? Text($", {o:off} out of round: rods and line-up clamps take up to a quarter of that at each side") : "")}{(pipe.Wall is { } w ? Text($", wall {w:small} ({pipe.Walls.Min(x => x.Wall):small} to {pipe.Walls.Max(x => x.Wall):small})") : "")}.");
        if (pipe.Spring is { } spring && Math.Abs(spring) >= 0.05)
            yield return Text($"{pipe.End.Words}: the line sprang {Math.Abs(spring):off} {(spring < 0 ? "together" : "apart")} when it was cut. It was under load: it is held on both sides before it is released or joined, and what it may be pulled back is the engineer's to say.");
        yield return $"{pipe.End.Words}: {Cautions.ExistingLine}";
    }

    private string Text(FormattableString s) => LengthText.Say(units, s);
}

/// <summary>Words that keep people safe at a closing.</summary>
public static class Cautions
{
    public const string ExistingLine = "Before it is cut the line is isolated, drained and gas-free by the site's permit, and held on both sides of the cut: it springs when cut.";
}
