using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Comparing;

/// <summary>
/// How the parts of the old drawing stand in the new one, each against its neighbours. A spool is the same where one turn takes all its ends, branches, bolt holes and
/// stems to those of the new one: wherever it stands, and never to the other hand.
/// </summary>
internal sealed class SteelTurns
{
    public const string OtherHand = "it is built to the other hand";

    private readonly Steel old;
    private readonly Steel @new;
    private readonly SteelMap map;
    private readonly Dictionary<SteelPart, Stand?> stands = [];

    public SteelTurns(Steel old, Steel @new, SteelMap map) => (this.old, this.@new, this.map) = (old, @new, map);

    /// <summary>How a part stands now: turned by a motion, and by any multiple of a pitch about an axis where its holes look the same.</summary>
    /// <param name="Turn">Null where no turn takes its ends to where they are now: it is joined by other ends.</param>
    private sealed record Stand(Motion? Turn, Vector Axis, double Pitch);

    /// <summary>Why a joint that is there in both drawings is another all the same, in words; null where its two sides stand to each other as before.</summary>
    public string? Of(Joint joint)
    {
        if (map.Of(joint) is null || joint.Between.Count < 2)
            return null;
        var (a, b) = (Telling(old.Of(joint.Between[0]), joint), Telling(old.Of(joint.Between[1]), joint));
        return a is null || b is null ? null : Apart(a, b);
    }

    /// <summary>Why a spool is not the one it was although its parts are the same, in words; null where it is.</summary>
    public string? Of(IEnumerable<SteelPart> parts)
    {
        var telling = parts.Where(p => StandOf(p) is not null).ToList();
        for (var i = 1; i < telling.Count; i++)
        {
            if (Apart(telling[0], telling[i]) is { } why)
                return IsOtherHand(telling) ? OtherHand : why;
        }

        return null;
    }

    private string? Apart(SteelPart a, SteelPart b)
    {
        var (one, other) = (StandOf(a)!, StandOf(b)!);
        if (one.Turn is not { } turnA || other.Turn is not { } turnB)
        {
            // Of a pipe its holes tell it already.
            var odd = one.Turn is null ? a : b;
            return odd.Cut is null ? $"{Name(odd)} is joined by other ends" : null;
        }

        var least = double.PositiveInfinity;
        for (var i = 0; i < Steps(one.Pitch); i++)
        {
            for (var j = 0; j < Steps(other.Pitch); j++)
            {
                var (mine, theirs) = (turnA.After(Spin(one.Axis, i * one.Pitch)), turnB.After(Spin(other.Axis, j * other.Pitch)));
                least = Math.Min(least, theirs.Inverse.After(mine).Turn.Length);
            }
        }

        if (least <= Tolerance.Turn)
            return null;
        var turned = Steps(one.Pitch) > 1 || Steps(other.Pitch) > 1 ? $"the holes of {Name(Steps(other.Pitch) > 1 ? b : a)} are turned" : $"{Name(b)} is turned against {Name(a)}";
        return FormattableString.Invariant($"{turned} by {Angles.ToDegrees(least):0.#} degrees");

        static int Steps(double pitch) => pitch > 0 ? (int)Math.Round(2 * Math.PI / pitch) : 1;
    }

    private static Motion Spin(Vector axis, double angle) => angle == 0 ? Motion.None : Motion.About(Point.Origin, Vector.Zero, axis * angle);

    private string Name(SteelPart part) => map.Of(part)?.Cut?.Piece ?? map.Of(part)?.Id ?? part.Cut?.Piece ?? part.Id;

    /// <summary>The nearest part on a side of a joint that tells how that side stands; parts that are round tell nothing and are walked through, as far as the spool goes.</summary>
    private SteelPart? Telling(SteelPart part, Joint from)
    {
        var seen = new HashSet<SteelPart>();
        for (SteelPart? at = part; at is not null && seen.Add(at);)
        {
            if (StandOf(at) is not null)
                return at;
            var next = at.Links.FirstOrDefault(l => l.Joint is { } j && j != from && Steel.IsOfSpool(j) && l.Other is not null && map.Of(j) is { } now && Steel.IsOfSpool(now));
            (at, from) = (next.Other, next.Joint ?? from);
        }

        return null;
    }

    /// <summary>Null where it is gone, or round: turned about its axis it is the same.</summary>
    private Stand? StandOf(SteelPart part)
    {
        if (!stands.TryGetValue(part, out var known))
            stands[part] = known = map.Of(part) is { } now ? Find(part, now) : null;
        return known;
    }

    private Stand? Find(SteelPart part, SteelPart now)
    {
        var ways = Ways(part, now);
        if (ways.Count == 0)
            return null;
        var (u, v) = ways[0];
        foreach (var (a, b) in ways.Skip(1))
        {
            if (Math.Abs(u.AngleTo(a) - v.AngleTo(b)) > Tolerance.Turn)
                return new(null, u, 0);
        }

        var second = ways.FirstOrDefault(w => u.Cross(w.Old).Length > 0.1);
        if (second != default)
        {
            var turn = Frame(u, second.Old, v, second.New);
            return new(ways.All(w => turn.Of(w.Old).AngleTo(w.New) <= Tolerance.Turn) ? turn : null, u, 0);
        }

        return old.BoltHoles(part) is { } before && @new.BoltHoles(now) is { } after && before.Count == after.Count
            ? new(Frame(u, before.Between, v, after.Between), u, 2 * Math.PI / before.Count)
            : null;
    }

    /// <summary>Directions of a part with what they are now: its ends by their joints, its branches, its stem.</summary>
    private List<(Vector Old, Vector New)> Ways(SteelPart part, SteelPart now)
    {
        List<(Vector, Vector)> ways = [];
        foreach (var joint in part.Links.Select(l => l.Joint).OfType<Joint>())
        {
            if (map.Of(joint) is { } there)
                ways.Add((Steel.Looks(part, joint), Steel.Looks(now, there)));
        }

        foreach (var (what, way) in Steel.Marks(part))
        {
            if (Steel.Marks(now).FirstOrDefault(m => m.What == what) is { What: not null } mark)
                ways.Add((way, mark.Way));
        }

        return ways;
    }

    private static Motion Frame(Vector u, Vector w, Vector v, Vector x)
    {
        var axis = u.Cross(v);
        var lay = axis.Length > 1e-9 ? Spin(axis.Unit, u.AngleTo(v)) : u.Dot(v) > 0 ? Motion.None : Spin(u.AnySquare(), Math.PI);
        var (from, to) = (lay.Of(w).SquareTo(v), x.SquareTo(v));
        return Spin(v, Math.Atan2(from.Cross(to).Dot(v), from.Dot(to))).After(lay);
    }

    /// <summary>Whether a mirror takes every direction of the parts to what it is now.</summary>
    private bool IsOtherHand(List<SteelPart> parts)
    {
        var ways = parts.SelectMany(p => Ways(p, map.Of(p)!)).ToList();
        if (ways.Count == 0)
            return false;
        var a = ways[0];
        var b = ways.FirstOrDefault(w => a.Old.Cross(w.Old).Length > 0.1);
        var c = ways.FirstOrDefault(w => Math.Abs(a.Old.Cross(b.Old).Dot(w.Old)) > 0.1);
        if (b == default || c == default)
            return false;
        // All directions against each other are as they were, and three of them go round the other way.
        return Math.Abs(a.Old.Cross(b.Old).Dot(c.Old) + a.New.Cross(b.New).Dot(c.New)) < 0.01
            && ways.All(w => new[] { a, b, c }.All(x => Math.Abs(x.Old.AngleTo(w.Old) - x.New.AngleTo(w.New)) <= Tolerance.Turn));
    }
}
