using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Comparing;

/// <summary>Supports of two drawings side by side: on the same pipe, of the same kind, the nearest two are one. Their names do not count.</summary>
internal sealed class SupportChanges
{
    private readonly Steel before;
    private readonly Steel after;
    private readonly SteelMap map;
    private readonly Dictionary<Support, (Support Now, List<string> Says)> pairs = [];

    public SupportChanges(Steel before, Steel after, SteelMap map)
    {
        (this.before, this.after, this.map) = (before, after, map);
        var open = after.Made.Route.Supports.ToList();
        // First what did not move, then the nearest: two that change places are two that moved.
        var near = from old in before.Made.Route.Supports
                   from now in open
                   where old.Drawn.Kind == now.Drawn.Kind && map.Of(before.Of(old.Pipe))?.Id == now.Pipe
                   orderby Math.Abs(Moved(old, now)), old.Id, now.Id
                   select (old, now);
        foreach (var (old, now) in near.ToList())
        {
            if (!pairs.ContainsKey(old) && open.Remove(now))
                pairs[old] = (now, [.. Differences(old, now)]);
        }

        Said = [.. Told()];
    }

    /// <summary>What was added, taken out or changed, with the spools that it touches: those off which a support is welded in the shop.</summary>
    public IReadOnlyList<PartChange> Said { get; }

    /// <summary>What the weld of a support is now; null where the old drawing has no such weld.</summary>
    public Whereabouts? OfWeld(string id)
    {
        if (before.Made.Route.Supports.FirstOrDefault(s => s.Weld?.Id.Equals(id, StringComparison.OrdinalIgnoreCase) == true) is not { } old)
            return null;
        return pairs.TryGetValue(old, out var pair) && pair.Now.Weld is { } weld ? new(weld.Id, pair.Says) : Whereabouts.Gone;
    }

    /// <summary>How far a support has moved along its pipe, mm: from the joint at the pipe's start, or from the one at its end where its start is free.</summary>
    private double Moved(Support old, Support now)
    {
        var (a, b) = (before.Made.Route.PipeOf(old.Pipe)!, after.Made.Route.PipeOf(now.Pipe)!);
        var isTurned = IsTurned(old, a, b);
        var (was, length) = ((old.At - a.Start).Dot(a.Direction), (a.End - a.Start).Dot(a.Direction));
        var (from, to) = ((now.At - b.Start).Dot(b.Direction), (b.End - now.At).Dot(b.Direction));
        // A pipe that grew at one end keeps its supports' distance from the other.
        var (start, end) = isTurned ? (to - was, from - (length - was)) : (from - was, to - (length - was));
        return Math.Abs(start) <= Math.Abs(end) ? start : -end;
    }

    /// <summary>Whether the pipe is written the other way round now.</summary>
    private bool IsTurned(Support old, PipePiece a, PipePiece b)
    {
        foreach (var link in before.Of(old.Pipe).Links)
        {
            if (link.Joint is { } joint && map.Of(joint) is { } there && Math.Abs(joint.At.To(a.Start) - joint.At.To(a.End)) > Tolerance.Closing)
                return joint.At.To(a.Start) < joint.At.To(a.End) != there.At.To(b.Start) < there.At.To(b.End);
        }

        return a.Direction.Dot(b.Direction) < 0;
    }

    private IEnumerable<string> Differences(Support old, Support now)
    {
        if (Moved(old, now) is var by && Math.Abs(by) > Comparison.SameLength)
            yield return FormattableString.Invariant($"it stands {LengthText.In(after.Made.Units, Math.Abs(by))} farther along its pipe");
        if (old.Along.AngleTo(now.Along) < Tolerance.Turn && old.Side is { } was && now.Side is { } side && was.AngleTo(side) > Tolerance.Turn)
            yield return FormattableString.Invariant($"its side is turned by {Angles.ToDegrees(was.AngleTo(side)):0.#} degrees");
        if (old.Drawn.IsWelded != now.Drawn.IsWelded)
            yield return now.Drawn.IsWelded ? "clamped is now welded" : "welded is now clamped";
        else if (old.Drawn.IsWeldedAtSite != now.Drawn.IsWeldedAtSite)
            yield return now.Drawn.IsWeldedAtSite ? "it is welded at site now" : "it is welded in the shop now";
        if (old.Drawn.Height is { } high && now.Drawn.Height is { } height && Math.Abs(high - height) > Comparison.SameLength)
            yield return $"its height of {LengthText.In(after.Made.Units, high)} is now {LengthText.In(after.Made.Units, height)}";
    }

    private IEnumerable<PartChange> Told()
    {
        var was = pairs.ToDictionary(p => p.Value.Now, p => p.Key);
        foreach (var now in after.Made.Route.Supports)
        {
            if (!was.TryGetValue(now, out var old))
                yield return new(new("added", Name(now), $"{Name(now)} {Place(after, now)}"), [], Spools(after, now));
            else if (pairs[old].Says is { Count: > 0 } says)
                yield return new(new("changed", Name(now), $"{Name(now)} {Place(after, now)}: {string.Join("; ", says)}"), Spools(before, old), Spools(after, now));
        }

        foreach (var old in before.Made.Route.Supports.Where(s => !pairs.ContainsKey(s)))
            yield return new(new("removed", Name(old), $"{Name(old)} {Place(before, old)}"), Spools(before, old), []);
    }

    private static string Name(Support s) => $"{s.Name} {s.Tag} NPS {s.Size}";

    private static string Place(Steel steel, Support s) => $"at {steel.Made.Route.Drawing.PlaceOf(s.Source.Path)}";

    private static List<string> Spools(Steel steel, Support s) => s.IsOfSpool && steel.Made.SpoolOf.TryGetValue(s.Pipe, out var spool) ? [spool] : [];
}
