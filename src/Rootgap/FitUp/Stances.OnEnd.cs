using Rootgap.Measure;

namespace Rootgap.FitUp;

/// <content>Standing on end, and why something cannot stand.</content>
internal sealed partial class Stances
{
    /// <summary>On end, the joint on top; null where it cannot stand so.</summary>
    public Stance? OnEnd()
    {
        var up = joint.Axis;
        if (joint.Weld == FitWeld.Branch)
            return null;
        // The lowest square end that looks down.
        FitPart? part = null;
        FitEnd? foot = null;
        foreach (var p in held.Parts)
        {
            foreach (var end in p.Ends)
            {
                if (end.Base > 0 && end.Face.Dot(up) < -0.99999 && (foot is null || (end.At - foot.At).Dot(up) < -1e-6))
                    (part, foot) = (p, end);
            }
        }

        if (part is null || foot is null || (joint.Centre - foot.At).Dot(up) > rules.OnEndLimit || held.Parts.Any(p => p.Straight > rules.OnEndLimit))
            return null;
        if (both.Parts.SelectMany(p => p.Bodies).Any(b => b.Lowest(foot.At, up) < -0.5))
            return null;
        (double Off, double Height) Centre(Assembly a) => ((a.Centre - foot.At).SquareTo(up).Length, (a.Centre - foot.At).Dot(up));
        var (before, after) = (Centre(held), Centre(both));
        var radius = foot.Base / 2;
        if (Math.Max(before.Off, after.Off) > 2 * rules.FreeShare * radius)
            return null;
        FitStand Base() => new(SupportKind.Base, part.Id, foot.At, isHeldWeighed ? held.Mass : null, isWeighed ? both.Mass : null);
        bool Free((double Off, double Height) c) => c.Off <= rules.FreeShare * radius && c.Height <= rules.FreeHeight * foot.Base;
        if (Free(before) && Free(after))
            return new(Attitude.OnEnd, Footing.Free, up, up, foot.At, [Base()], 0, null);
        // Tied back to a post at a point no lower than the centre.
        var high = Math.Max(before.Height, after.Height);
        double Pull((double Off, double Height) c, double mass, double at) => Math.Max(mass / 10, mass * Math.Max(0, c.Off - (rules.FreeShare * radius)) / at);
        foreach (var (tied, at) in TiePoints(foot.At, up, high))
        {
            var isHeld = held.Contains(tied.Id);
            if (!Free(before) && !isHeld)
                continue;
            var over = (at - foot.At).Dot(up);
            double? pulledBefore = Free(before) || !isHeldWeighed ? null : Pull(before, held.Mass, over);
            return new(Attitude.OnEnd, Footing.Held, up, up, foot.At,
                [Base(), new(SupportKind.TieBack, tied.Id, at, pulledBefore, isWeighed ? Pull(after, both.Mass, over) : null)], 0, null);
        }

        return null;
    }

    // On a pipe's axis at the wanted height, held parts first; else at a part's middle that is high enough, the lowest of them.
    private IEnumerable<(FitPart Part, Point At)> TiePoints(Point foot, Vector up, double high)
    {
        foreach (var part in held.Parts.Where(p => p.IsPipe && Math.Abs(p.Direction.Dot(up)) > 0.999))
        {
            var (low, top) = part.Direction.Dot(up) > 0 ? (part.Ends[0].At, part.Ends[1].At) : (part.Ends[1].At, part.Ends[0].At);
            var (from, to) = ((low - foot).Dot(up), (top - foot).Dot(up));
            if (high <= to - 20)
                yield return (part, low + (up * (Math.Max(high, from) - from)));
        }

        foreach (var part in both.Parts.Where(p => (p.Centre - foot).Dot(up) >= high).OrderBy(p => (p.Centre - foot).Dot(up)))
            yield return (part, part.Centre);
    }

    /// <summary>Why it cannot stand in an attitude, for people.</summary>
    public string WhyNot(Attitude attitude)
    {
        var (name, words) = (joint.Name, FitWords.Of(joint));
        switch (attitude)
        {
            case Attitude.OnEnd when joint.Weld == FitWeld.Branch:
                return $"{name} is a branch on its header: it is not fitted on end.";
            case Attitude.OnEnd:
                var feet = held.Parts.SelectMany(p => p.Ends.Where(e => e.Face.Dot(joint.Axis) < -0.99999).Select(e => (Part: p, End: e))).ToList();
                if (feet.Count == 0)
                    return $"{name} cannot stand on end: no end of what is held ({held.Label}) looks straight away from the joint.";
                if (held.Parts.Where(p => p.Straight > rules.OnEndLimit).MaxBy(p => p.Straight) is { } tall)
                    return $"{name} cannot stand on end: {tall.Label} is {words.Said(tall.Straight)} long, over {words.Said(rules.OnEndLimit)} (shop rule `on end limit`).";
                var (part, end) = feet.MinBy(f => (f.End.At - joint.Centre).Dot(joint.Axis));
                if (end.Base <= 0)
                    return $"{name} cannot stand on end: {part.Label} would stand on {end.StandsOn}, which is not square.";
                if (both.Parts.SelectMany(p => p.Bodies).Any(b => b.Lowest(end.At, joint.Axis) < -0.5))
                    return $"{name} cannot stand on end: something hangs lower than the end of {part.Label} that it would stand on.";
                var off = Math.Max((held.Centre - end.At).SquareTo(joint.Axis).Length, (both.Centre - end.At).SquareTo(joint.Axis).Length);
                return $"{name} cannot stand on end: its centre of mass is {words.Said(off)} off the middle of the base, which is {words.Said(end.Base)} wide: it would tip.";
            case Attitude.Clamped:
                return $"{name} cannot be clamped so.";
            default:
                return Lines.Count == 0
                    ? $"{name} cannot lie on stands: there is no pipe in what is held ({held.Label})."
                    : $"{name} cannot lie on stands so: no two places under straight pipe carry a fifth of the weight each before and after, with a third stand or a tie-down neither, or something would hang too near the floor.";
        }
    }
}
