using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Sheets;

/// <summary>A stretch of a leg that one component or piece of pipe takes.</summary>
/// <param name="Id">Id of the component or pipe.</param>
/// <param name="From">Distance from the leg's first work point, mm in the plant; so is <paramref name="To"/>.</param>
internal sealed record LegPart(string Id, Component? Component, PipePiece? Pipe, double From, double To)
{
    public double Middle => (From + To) / 2;
}

/// <summary>A leg as it is drawn: what stands on it in order, and between which nodes of the sketch it runs.</summary>
internal sealed class DrawnLeg
{
    public required int Run { get; init; }

    /// <summary>Index of the leg in its run; -1 for the branch of a fitting on which nothing stands.</summary>
    public required int Leg { get; init; }

    public required Point Origin { get; init; }
    public required Vector Direction { get; init; }

    /// <summary>From work point to work point, mm.</summary>
    public required double Distance { get; init; }

    public List<LegPart> Parts { get; set; } = [];

    /// <summary>Whether the first, the last work point is on this sketch; otherwise the leg is cut there.</summary>
    public bool HasStart { get; set; }

    public bool HasEnd { get; set; }

    public int StartNode { get; set; }
    public int EndNode { get; set; }

    /// <summary>Where the drawn leg begins and ends, mm from its first work point.</summary>
    public double First => HasStart ? Math.Min(0, Parts[0].From) : Parts[0].From;

    public double Last => HasEnd ? Math.Max(Distance, Parts[^1].To) : Parts[^1].To;

    /// <summary>What is dimensioned: between work points, or to where the leg is cut.</summary>
    public double DimensionFrom => HasStart ? 0 : Parts[0].From;

    public double DimensionTo => HasEnd ? Distance : Parts[^1].To;

    public bool IsWhole => HasStart && HasEnd;
}

/// <summary>A joint and where on which leg of the sketch it is.</summary>
internal readonly record struct DrawnJoint(Joint Joint, DrawnLeg Leg, double At);

/// <summary>A drawing, or a part of one, as legs with parts and joints: what an isometric shows, without paper.</summary>
internal sealed class DrawnLine
{
    /// <summary>Two ends nearer than this are one: root gaps and gaskets are drawn as nothing.</summary>
    private const double Near = 0.5;

    public required Fabrication Fabrication { get; init; }
    public required IReadOnlyList<DrawnLeg> Legs { get; init; }
    public required IReadOnlyList<DrawnJoint> Joints { get; init; }
    public required int Nodes { get; init; }

    /// <summary>Ids of the components and pipes that are on the sketch.</summary>
    public required IReadOnlySet<string> Ids { get; init; }

    /// <summary>What is written at a joint besides its name, a row each, by the joint's id.</summary>
    public required IReadOnlyDictionary<string, IReadOnlyList<string>> Notes { get; init; }

    /// <summary>What another version has otherwise, by the marks of pieces and the ids of components and joints.</summary>
    public IReadOnlyDictionary<string, ChangedPart> Changed { get; init; } = NothingChanged;

    /// <summary>A spool alone, beside views that have its lengths: none are written here, and its ends say where they go.</summary>
    public bool IsSpool { get; init; }

    private static readonly Dictionary<string, IReadOnlyList<string>> NoNotes = new(StringComparer.Ordinal);

    private static readonly Dictionary<string, ChangedPart> NothingChanged = new(StringComparer.Ordinal);

    public Route Route => Fabrication.Route;

    /// <summary>Path of the row that a leg is written in; null for a branch on which nothing stands.</summary>
    public string? RowOf(DrawnLeg leg) => leg.Leg < 0 ? null : Route.RowOf(leg.Run, leg.Leg).Path.ToString();

    /// <summary>Ids of all components and pipes of a drawing.</summary>
    public static HashSet<string> Everything(Fabrication f) =>
        [.. f.Route.Components.Select(c => c.Id), .. f.Route.Pipes.Select(p => p.Id)];

    /// <param name="notes">Rows to write at joints, by their ids; null for none.</param>
    /// <param name="changed">What another version has otherwise; null for nothing.</param>
    public static DrawnLine Of(Fabrication f, IReadOnlySet<string> ids, IReadOnlyDictionary<string, IReadOnlyList<string>>? notes = null, bool isSpool = false, IReadOnlyDictionary<string, ChangedPart>? changed = null)
    {
        var route = f.Route;
        var at = new Dictionary<(int Run, int Leg), DrawnLeg>();
        var all = new List<DrawnLeg>();
        for (var r = 0; r < route.Runs.Count; r++)
        {
            var run = route.Runs[r];
            for (var l = 0; l < run.Directions.Count; l++)
            {
                var leg = new DrawnLeg { Run = r, Leg = l, Origin = run.Points[l], Direction = run.Directions[l], Distance = run.Distances[l] };
                at[(r, l)] = leg;
                all.Add(leg);
            }
        }

        var branches = new Branches(route);
        foreach (var component in route.Components)
            Put(component, route, at, all, branches);
        foreach (var pipe in route.Pipes)
        {
            for (var l = pipe.FirstLeg; l <= pipe.LastLeg; l++)
            {
                var leg = at[(pipe.Run, l)];
                var from = l == pipe.FirstLeg ? (pipe.Start - leg.Origin).Dot(leg.Direction) : 0;
                var to = l == pipe.LastLeg ? (pipe.End - leg.Origin).Dot(leg.Direction) : leg.Distance;
                leg.Parts.Add(new(pipe.Id, null, pipe, from, Math.Max(from, to)));
            }
        }

        return Cut(f, ids, all, branches, notes ?? NoNotes, isSpool, changed ?? NothingChanged);
    }

    /// <summary>Keeps what is on the sketch, and ties the legs together at the work points that are.</summary>
    private static DrawnLine Cut(Fabrication f, IReadOnlySet<string> ids, List<DrawnLeg> all, Branches branches, IReadOnlyDictionary<string, IReadOnlyList<string>> notes, bool isSpool, IReadOnlyDictionary<string, ChangedPart> changed)
    {
        var legs = new List<DrawnLeg>();
        foreach (var leg in all)
        {
            // Parts that overlap (a drawing that cannot be built) are drawn one after the other.
            var parts = leg.Parts.OrderBy(p => p.Middle).ToList();
            var kept = parts.Where(p => ids.Contains(p.Id)).ToList();
            if (kept.Count == 0)
                continue;
            leg.HasStart = kept[0] == parts[0] || kept[0].From <= Near;
            leg.HasEnd = kept[^1] == parts[^1] || kept[^1].To >= leg.Distance - Near;
            leg.Parts = kept;
            legs.Add(leg);
        }

        var nodes = new Dictionary<(int Run, int Station), int>();
        var count = 0;
        int Node(int run, int station)
        {
            var key = branches.Host(run, station);
            if (!nodes.TryGetValue(key, out var node))
                nodes[key] = node = count++;
            return node;
        }

        foreach (var leg in legs)
        {
            // A branch of a fitting on which nothing stands starts at the fitting's station.
            var station = leg.Leg >= 0 ? leg.Leg : branches.StationOf(leg);
            leg.StartNode = leg.HasStart ? Node(leg.Run, station) : count++;
            leg.EndNode = leg.HasEnd && leg.Leg >= 0 ? Node(leg.Run, station + 1) : count++;
        }

        return new DrawnLine { Fabrication = f, Legs = legs, Joints = Place(f.Route, ids, legs), Nodes = count, Ids = ids, Notes = notes, IsSpool = isSpool, Changed = changed };
    }

    private static List<DrawnJoint> Place(Route route, IReadOnlySet<string> ids, List<DrawnLeg> legs)
    {
        var onLegs = legs.SelectMany(l => l.Parts.Select(p => (p.Id, Leg: l))).ToLookup(x => x.Id, x => x.Leg, StringComparer.Ordinal);
        var placed = new List<DrawnJoint>();
        foreach (var joint in route.Joints)
        {
            var best = default(DrawnJoint);
            var nearest = double.MaxValue;
            foreach (var leg in joint.Between.Where(ids.Contains).SelectMany(id => onLegs[id]).Distinct())
            {
                var s = (joint.At - leg.Origin).Dot(leg.Direction);
                var off = (joint.At - (leg.Origin + (leg.Direction * s))).Length;
                var shared = joint.Between.All(id => leg.Parts.Any(p => p.Id == id));
                var distance = off + Math.Max(0, leg.First - s) + Math.Max(0, s - leg.Last) + (shared ? 0 : Near);
                if (distance < nearest - 1e-6)
                    (nearest, best) = (distance, new(joint, leg, s));
            }

            if (best.Leg is not null)
                placed.Add(best with { At = Meets(best) });
        }

        return placed;
    }

    /// <summary>Where two fittings meet: a thread or a socket takes in a part of the other, and its middle may lie nearer to a far end of a short fitting than to that.</summary>
    private static double Meets(DrawnJoint joint)
    {
        var parts = joint.Leg.Parts.Where(p => p.Component is not null && joint.Joint.Between.Contains(p.Id, StringComparer.Ordinal)).ToList();
        return joint.Joint.Kind is JointKind.Threaded or JointKind.Socket && parts.Count == 2 && parts[0].Id != parts[1].Id ? (parts[0].To + parts[1].From) / 2 : joint.At;
    }

    /// <summary>Puts a component on the legs on which its ends lie.</summary>
    private static void Put(Component c, Route route, Dictionary<(int Run, int Leg), DrawnLeg> at, List<DrawnLeg> all, Branches branches)
    {
        var station = c.Leg + 1;
        var into = at.GetValueOrDefault((c.Run, station - 1));
        var onward = at.GetValueOrDefault((c.Run, station));
        if (c is ReturnBend back && into is not null && onward is not null && at.GetValueOrDefault((c.Run, station + 1)) is { } behind)
        {
            // Two corners, and half of the crown at each.
            var reach = back.In.At.To(back.WorkPoint);
            into.Parts.Add(new(c.Id, c, null, into.Distance - reach, into.Distance));
            onward.Parts.Add(new(c.Id, c, null, 0, onward.Distance / 2));
            onward.Parts.Add(new(c.Id, c, null, onward.Distance / 2, onward.Distance));
            behind.Parts.Add(new(c.Id, c, null, 0, reach));
            return;
        }

        var ends = new List<(DrawnLeg Leg, double At)>();
        var atPoint = 0;
        foreach (var port in c.Ports)
        {
            var v = port.At - c.WorkPoint;
            if (v.Length < 1e-6)
            {
                atPoint++;
                continue;
            }

            ends.Add(On(v, c.LiesAlongLine));
        }

        foreach (var group in ends.GroupBy(e => e.Leg).ToList())
        {
            var leg = group.Key;
            var point = leg == into ? leg.Distance : branches.ComesIn(leg, c) ? leg.Distance : 0;
            var spots = group.Select(e => e.At).ToList();
            if (spots.Count == 1)
                spots.Add(point);
            leg.Parts.Add(new(c.Id, c, null, spots.Min(), spots.Max()));
        }

        if (ends.Count == 0 && atPoint > 0 && (into ?? onward) is { } there)
            there.Parts.Add(new(c.Id, c, null, there == into ? there.Distance : 0, there == into ? there.Distance : 0));

        (DrawnLeg, double) On(Vector v, bool isStraight)
        {
            var length = v.Length;
            if (into is not null && (isStraight || Math.Abs(v.Dot(into.Direction)) > 0.99 * length))
            {
                var along = v.Dot(into.Direction);
                if (along <= 0 || onward is null)
                    return (into, into.Distance + along);
                if (isStraight || onward.Direction.Dot(into.Direction) > 0.99)
                    return (onward, along);
            }

            if (onward is not null && v.Dot(onward.Direction) is var out1 && (isStraight || Math.Abs(out1) > 0.99 * length) && (out1 > 0 || into is null))
                return (onward, out1);
            if (branches.From(c.Run, station) is { } from && at.TryGetValue((from, 0), out var branch))
                return (branch, length);
            if (branches.TiedTo(c.Run, station) is { } tied && at.TryGetValue((tied, route.Runs[tied].Directions.Count - 1), out var tie))
                return (tie, tie.Distance - length);
            var stub = all.FirstOrDefault(l => l.Leg < 0 && l.Run == c.Run && branches.StationOf(l) == station);
            if (stub is null)
            {
                stub = new DrawnLeg { Run = c.Run, Leg = -1, Origin = c.WorkPoint, Direction = v.Unit, Distance = length };
                branches.Add(stub, station);
                all.Add(stub);
            }

            return (stub, length);
        }
    }

    /// <summary>Which run starts or ends at whose branch.</summary>
    private sealed class Branches
    {
        private readonly Dictionary<string, (int Run, int Station)> named = new(StringComparer.Ordinal);
        private readonly Dictionary<(int Run, int Station), int> from = [];
        private readonly Dictionary<(int Run, int Station), int> tied = [];
        private readonly Dictionary<(int Run, int Station), (int Run, int Station)> hosts = [];
        private readonly Dictionary<DrawnLeg, int> stubs = [];

        public Branches(Route route)
        {
            for (var r = 0; r < route.Runs.Count; r++)
            {
                foreach (var leg in route.Runs[r].Run.Legs)
                {
                    if (leg.To.Name is { } name)
                        named.TryAdd(name, (r, leg.Index + 1));
                }
            }

            for (var r = 0; r < route.Runs.Count; r++)
            {
                var run = route.Runs[r].Run;
                if (run.Start.From is { } name && named.TryGetValue(name, out var host))
                {
                    from.TryAdd(host, r);
                    hosts[(r, 0)] = host;
                }

                if (run.Legs[^1].To is TieInPoint { With: var with } && named.TryGetValue(with, out var to))
                {
                    tied.TryAdd(to, r);
                    hosts[(r, run.Legs.Count)] = to;
                }
            }
        }

        public int? From(int run, int station) => from.TryGetValue((run, station), out var r) ? r : null;

        public int? TiedTo(int run, int station) => tied.TryGetValue((run, station), out var r) ? r : null;

        public (int Run, int Station) Host(int run, int station) => hosts.GetValueOrDefault((run, station), (run, station));

        /// <summary>Whether the leg ends at the component that stands in another run.</summary>
        public bool ComesIn(DrawnLeg leg, Component c) =>
            leg.Leg >= 0 && hosts.TryGetValue((leg.Run, leg.Leg + 1), out var host) && host == (c.Run, c.Leg + 1)
            && TiedTo(c.Run, c.Leg + 1) == leg.Run;

        public void Add(DrawnLeg stub, int station) => stubs[stub] = station;

        public int StationOf(DrawnLeg stub) => stubs[stub];
    }
}
