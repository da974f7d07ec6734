using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Comparing;

/// <summary>
/// Which part of one drawing is which of another: by what it is and what it is joined to, never by its name, its run or its place in the file.
/// What stands where it stood among its like is found first; then what is alike far around itself, then less far; what is left is followed along the joints from what was found.
/// </summary>
/// <remarks>Neighbourhoods are told apart by colour refinement (Weisfeiler and Leman, 1968), with each pair that was found as a colour of its own.</remarks>
internal sealed class SteelMap
{
    private const int Far = 6;

    /// <summary>Another direction weighs like so many millimetres of length when neighbours are paired.</summary>
    private const double OtherWay = 400;

    private readonly Steel old;
    private readonly Steel @new;
    private readonly Dictionary<SteelPart, SteelPart> forth = [];
    private readonly Dictionary<SteelPart, SteelPart> back = [];
    private readonly Dictionary<Joint, Joint> jointsForth = [];

    /// <summary>What was found and not yet followed along its joints.</summary>
    private readonly Queue<SteelPart> fresh = new();

    public SteelMap(Steel old, Steel @new)
    {
        (this.old, this.@new) = (old, @new);
        PairStanding();
        PairAlike(p => p.Exact, p => p.Exact, j => $"{j.Kind} {j.Place}");
        PairAlike(p => p.Exact, p => p.Rough, Kind);
        do
            PairAlike(p => p.Rough, p => p.Rough, Kind);
        while (PairNeighbours((o, n) => o.Rough == n.Rough));
        do
            PairAlike(p => p.Ware.ToString(), p => p.Ware.ToString(), Kind);
        while (PairNeighbours((o, n) => o.Ware == n.Ware));
        do
            PairJoints();
        while (DropStrays());

        static string Kind(Joint joint) => joint.Kind.ToString();
    }

    /// <summary>The part that an old one is now; null where it is gone.</summary>
    public SteelPart? Of(SteelPart part) => forth.GetValueOrDefault(part);

    /// <summary>The part that a new one was; null where there was none.</summary>
    public SteelPart? Before(SteelPart part) => back.GetValueOrDefault(part);

    /// <summary>The joint that an old one is now: of the same parts, made the same way; null where it is gone.</summary>
    public Joint? Of(Joint joint) => jointsForth.GetValueOrDefault(joint);

    public IEnumerable<(Joint Old, Joint New)> Joints => jointsForth.Select(p => (p.Key, p.Value));

    private void Pair(SteelPart o, SteelPart n)
    {
        (forth[o], back[n]) = (n, o);
        fresh.Enqueue(o);
    }

    private static string Around(SteelPart part) => string.Join('|', part.Links.Where(l => l.Joint is not null).Select(l => $"{l.Joint!.Kind} {l.Joint.Place} {l.Other?.Exact}").Order(StringComparer.Ordinal));

    private void PairStanding()
    {
        var byKind = @new.Parts.ToLookup(p => p.Exact, StringComparer.Ordinal);
        foreach (var o in old.Parts)
        {
            if (o.IsJoined && byKind[o.Exact].FirstOrDefault(n => !back.ContainsKey(n) && o.Middle.To(n.Middle) <= Tolerance.Closing && SameWays(o, n) && Around(o) == Around(n)) is { } there)
                Pair(o, there);
        }
    }

    private static bool SameWays(SteelPart o, SteelPart n)
    {
        if (o.Cut is { } a && n.Cut is { } b)
            return Math.Abs(a.Pipe.Direction.Dot(b.Pipe.Direction)) > 0.999;
        return o.Component!.Ports.All(p => n.Component!.Ports.Any(q => p.At.To(q.At) <= Tolerance.Closing));
    }

    /// <summary>Pairs what has the same neighbourhood in both drawings, the widest first, as long as anything is found.</summary>
    private void PairAlike(Func<SteelPart, string> own, Func<SteelPart, string> neighbour, Func<Joint, string> joint)
    {
        while (true)
        {
            PairAlong();
            var colours = Colours(own, neighbour, joint);
            if (!PairUnique(colours) && !PairNearest(colours))
                return;
        }
    }

    /// <summary>From what was found on along the joints, as long as one neighbour on each side is of the same kind and length: long lines are done in one go.</summary>
    private void PairAlong()
    {
        while (fresh.TryDequeue(out var o))
        {
            var n = forth[o];
            foreach (var (mine, kind) in OpenNeighbours(o, forth))
            {
                if (OpenNeighbours(o, forth).Count(x => x == (mine, kind) || (x.Kind == kind && x.Part.Exact == mine.Exact)) == 1
                    && OpenNeighbours(n, back).Where(x => x.Kind == kind && x.Part.Exact == mine.Exact).ToList() is [var only])
                {
                    Pair(mine, only.Part);
                }
            }
        }

        static List<(SteelPart Part, string Kind)> OpenNeighbours(SteelPart part, Dictionary<SteelPart, SteelPart> paired) =>
            [.. part.Links.Where(l => l is { Joint: not null, Other: { } other } && !paired.ContainsKey(other)).Select(l => (l.Other!, $"{l.Joint!.Kind} {l.Joint.Place}"))];
    }

    private bool PairUnique(List<Dictionary<SteelPart, ulong>> colours)
    {
        for (var far = Far; far >= 1; far--)
        {
            var (ours, theirs) = (Open(old, forth, colours[far]), Open(@new, back, colours[far]));
            var found = false;
            foreach (var (colour, parts) in ours)
            {
                if (parts.Count == 1 && theirs.TryGetValue(colour, out var others) && others.Count == 1)
                {
                    Pair(parts[0], others[0]);
                    found = true;
                }
            }

            if (found)
                return true;
        }

        return false;
    }

    /// <summary>Several look the same however far one looks: the nearest two are one.</summary>
    private bool PairNearest(List<Dictionary<SteelPart, ulong>> colours)
    {
        for (var far = Far; far >= 1; far--)
        {
            var (ours, theirs) = (Open(old, forth, colours[far]), Open(@new, back, colours[far]));
            (SteelPart O, SteelPart N)? best = null;
            var distance = double.PositiveInfinity;
            foreach (var (colour, parts) in ours)
            {
                if (!theirs.TryGetValue(colour, out var others))
                    continue;
                foreach (var o in parts)
                {
                    foreach (var n in others)
                    {
                        if (o.Middle.To(n.Middle) is var d && d < distance - Tolerance.Noise)
                            (distance, best) = (d, (o, n));
                    }
                }
            }

            if (best is { } pair)
            {
                Pair(pair.O, pair.N);
                return true;
            }
        }

        return false;
    }

    private static Dictionary<ulong, List<SteelPart>> Open(Steel steel, Dictionary<SteelPart, SteelPart> paired, Dictionary<SteelPart, ulong> colours)
    {
        var open = new Dictionary<ulong, List<SteelPart>>();
        foreach (var part in steel.Parts)
        {
            if (paired.ContainsKey(part))
                continue;
            if (!open.TryGetValue(colours[part], out var list))
                open[colours[part]] = list = [];
            list.Add(part);
        }

        return open;
    }

    private List<Dictionary<SteelPart, ulong>> Colours(Func<SteelPart, string> own, Func<SteelPart, string> neighbour, Func<Joint, string> joint)
    {
        var names = new Dictionary<string, ulong>(StringComparer.Ordinal);
        var pairs = new Dictionary<SteelPart, ulong>();
        foreach (var (o, n) in forth)
            pairs[o] = pairs[n] = Mix(0x9e3779b97f4a7c15, (ulong)pairs.Count + 1);
        var all = old.Parts.Concat(@new.Parts).ToList();
        ulong Named(string name) => names.TryGetValue(name, out var known) ? known : names[name] = Mix(0x2545f4914f6cdd1d, (ulong)names.Count + 1);
        var seen = all.ToDictionary(p => p, p => pairs.GetValueOrDefault(p) is > 0 and var pair ? pair : Named(neighbour(p)));
        List<Dictionary<SteelPart, ulong>> colours = [all.ToDictionary(p => p, p => Named(own(p)))];
        for (var far = 1; far <= Far; far++)
        {
            var next = new Dictionary<SteelPart, ulong>(all.Count);
            foreach (var part in all)
            {
                // The order of neighbours does not matter: a sum. A gasket is known by its flange, and no flange by its gasket.
                var around = 0UL;
                foreach (var link in part.Links.Where(l => l.Joint is not null || !part.IsJoined))
                    around += Mix(link.Other is { } other ? seen[other] : 7, Named(link.Joint is { } j ? joint(j) : "beside"));
                next[part] = Mix(far == 1 ? Named(own(part)) : colours[^1][part], around);
            }

            colours.Add(next);
            seen = all.ToDictionary(p => p, p => pairs.GetValueOrDefault(p) is > 0 and var pair ? pair : next[p]);
        }

        return colours;
    }

    // The finaliser of SplitMix64 (Steele, Lea, Flood, 2014).
    private static ulong Mix(ulong a, ulong b)
    {
        var z = (a * 0xbf58476d1ce4e5b9) + b + 0x9e3779b97f4a7c15;
        z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9;
        z = (z ^ (z >> 27)) * 0x94d049bb133111eb;
        return z ^ (z >> 31);
    }

    /// <summary>Follows the joints out of what was found, and pairs the two likeliest neighbours. False where there are none.</summary>
    private bool PairNeighbours(Func<SteelPart, SteelPart, bool> isAlike)
    {
        (SteelPart O, SteelPart N)? best = null;
        var least = double.PositiveInfinity;
        foreach (var (o, n) in forth)
        {
            foreach (var a in o.Links)
            {
                if (a.Other is not { } mine || forth.ContainsKey(mine))
                    continue;
                foreach (var b in n.Links)
                {
                    if (b.Other is not { } theirs || back.ContainsKey(theirs) || a.Joint?.Kind != b.Joint?.Kind || !isAlike(mine, theirs))
                        continue;
                    var cost = Math.Abs(mine.Length - theirs.Length);
                    if (a.Joint is { } j && b.Joint is { } k && Steel.Looks(o, j).AngleTo(Steel.Looks(n, k)) > Tolerance.Turn)
                        cost += OtherWay;
                    // A common neighbour on the far side, too.
                    cost -= mine.Links.Count(l => l.Other is { } far && forth.TryGetValue(far, out var there) && theirs.Links.Any(t => t.Other == there)) * OtherWay;
                    if (cost < least - Tolerance.Noise)
                        (least, best) = (cost, (mine, theirs));
                }
            }
        }

        if (best is not { } pair)
            return false;
        Pair(pair.O, pair.N);
        return true;
    }

    private void PairJoints()
    {
        jointsForth.Clear();
        var open = @new.Made.Route.Joints.ToList();
        foreach (var joint in old.Made.Route.Joints)
        {
            var sides = joint.Between.Select(id => Of(old.Of(id))).ToList();
            if (sides.Contains(null))
                continue;
            var ids = sides.Select(s => s!.Id).Order(StringComparer.Ordinal).ToList();
            var found = open.Where(j => j.Kind == joint.Kind && j.Between.Order(StringComparer.Ordinal).SequenceEqual(ids, StringComparer.Ordinal)).MinBy(j => (j.Place != joint.Place, j.At.To(joint.At)));
            if (found is null)
                continue;
            jointsForth[joint] = found;
            open.Remove(found);
        }
    }

    /// <summary>Parts that look alike and share no joint are two parts, unless they stand in one place. True where some were dropped.</summary>
    private bool DropStrays()
    {
        var strays = forth.Where(p => !(p.Key.Middle.To(p.Value.Middle) <= Tolerance.Closing && p.Key.Exact == p.Value.Exact)
            && (p.Key.Links.Any(l => l.Other is not null) || p.Value.Links.Any(l => l.Other is not null))
            && !p.Key.Links.Any(l => l.Joint is { } j ? jointsForth.TryGetValue(j, out var now) && now.Between.Count > 1 : l.Other is { } mate && forth.ContainsKey(mate))).ToList();
        foreach (var (o, n) in strays)
        {
            forth.Remove(o);
            back.Remove(n);
        }

        return strays.Count > 0;
    }
}
