using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.FitUp;

/// <summary>A spool before its first joint is made: its welds, its pieces, and which of two assemblies is held.</summary>
public sealed class FitSpool
{
    private readonly Dictionary<(string, Assembly, Assembly), FitJoint> asDrawn = [];

    internal FitSpool(FitJoints fitting, Spool spool)
    {
        (Fitting, Spool) = (fitting, spool);
        Parts = [.. spool.Components.Select(c => c.Id).Concat(spool.Cuts.Select(c => c.Pipe.Id)).Select(fitting.Part).OrderBy(p => p.Order)];
        Welds = [.. spool.Joints.Where(fitting.Welds.Contains)];
        ScrewedLast = LastOf(spool, [.. Parts.Select(p => p.Id)]);
        // What is screwed together between welds is made up before anything is welded to it.
        var pieceOf = Parts.ToDictionary(p => p.Id, p => p.Order, StringComparer.Ordinal);
        foreach (var joint in spool.Joints)
        {
            if (joint.Kind == JointKind.Threaded && joint.Between is [var a, var b] && pieceOf.TryGetValue(a, out var one) && pieceOf.TryGetValue(b, out var other))
            {
                foreach (var part in Parts.Where(p => pieceOf[p.Id] == Math.Max(one, other)))
                    pieceOf[part.Id] = Math.Min(one, other);
            }
        }

        Pieces = [.. Parts.Where(p => !ScrewedLast.ContainsKey(p.Id)).GroupBy(p => pieceOf[p.Id]).Select(Assembly.Of)];
        Ups = Directions();
    }

    public FitJoints Fitting { get; }

    public Spool Spool { get; }

    /// <summary>Its parts, along the line.</summary>
    public IReadOnlyList<FitPart> Parts { get; }

    /// <summary>Its welds with both sides in it, in line order.</summary>
    public IReadOnlyList<Joint> Welds { get; }

    /// <summary>
    /// What is screwed on when the welds are made, by its id, with the part it is screwed on: a valve, a nipple or a plug behind a half coupling, with no weld of its own. A
    /// weld's heat spoils seats, sealant and made-up threads (common practice), and so such parts are neither held nor brought at any joint.
    /// </summary>
    public IReadOnlyDictionary<string, string> ScrewedLast { get; }

    /// <summary>The part of its welds that carries what is screwed on last; null for a part that is not.</summary>
    public string? ScrewedOn(string part)
    {
        if (!ScrewedLast.TryGetValue(part, out var host))
            return null;
        while (ScrewedLast.TryGetValue(host, out var further))
            host = further;
        return host;
    }

    /// <summary>What it begins with: single parts, and what is screwed together with welds on both sides.</summary>
    public IReadOnlyList<Assembly> Pieces { get; }

    /// <summary>The best order of its welds: cards, sheets and checks all ask for it, and it is looked for once.</summary>
    internal IReadOnlyList<FitStep> Order { get => field ??= FitOrder.Find(this); }

    /// <summary>Directions of the parts that may look up in a set-up, unit.</summary>
    internal IReadOnlyList<Vector> Ups { get; }

    /// <summary>Something at a weld was cut longer for what the weld draws in.</summary>
    public bool DrawsIn(Joint weld) => weld.Between.Any(id => Fitting.Net.EndAt(weld, Fitting.Part(id)) is { } end && (end.Nose - end.Drawn).Length > 1e-9);

    /// <summary>Something at any of its welds was.</summary>
    public bool DrawsIn() => Welds.Any(DrawsIn);

    public Construction Begin() => Construction.Begin(Pieces, ScrewedLast);

    // From the far ends of what is screwed together inward, as far as no weld is.
    private static Dictionary<string, string> LastOf(Spool spool, HashSet<string> parts)
    {
        var threads = spool.Joints.Where(j => j.Kind == JointKind.Threaded && j.Between.Count(parts.Contains) == 2).ToList();
        var welded = spool.Joints.Where(j => j.IsWeld).SelectMany(j => j.Between).ToHashSet(StringComparer.Ordinal);
        var last = new Dictionary<string, string>(StringComparer.Ordinal);
        while (threads.Find(t => t.Between.Count(IsEnd) == 1) is { } thread)
        {
            var end = thread.Between.First(IsEnd);
            last[end] = thread.Between.First(id => id != end);
            threads.Remove(thread);
        }

        // What hangs on no weld at all is made up as it comes.
        return last.Where(l => welded.Contains(Root(l.Key))).ToDictionary(StringComparer.Ordinal);

        string Root(string id) => last.TryGetValue(id, out var host) ? Root(host) : id;

        bool IsEnd(string id) => !welded.Contains(id) && threads.Count(t => t.Between.Contains(id)) == 1;
    }

    /// <summary>The directions in which the parts look, and square to each pipe those that come nearest.</summary>
    private List<Vector> Directions()
    {
        List<Vector> looks = [], ups = [];
        foreach (var face in Parts.SelectMany(p => p.Ends).Select(e => e.Face))
        {
            Add(looks, face);
            Add(looks, -face);
        }

        foreach (var look in looks)
            Add(ups, look);
        List<Vector> along = [];
        foreach (var pipe in Parts.Where(p => p.IsPipe))
            Add(along, pipe.Direction);
        foreach (var direction in along)
        {
            foreach (var look in looks.Append(SetUp.AsDrawnTop(direction)).Append(-SetUp.AsDrawnTop(direction)).Append(direction.Cross(SetUp.AsDrawnTop(direction))).Append(-direction.Cross(SetUp.AsDrawnTop(direction))))
            {
                if (look.SquareTo(direction) is var side && side.Length > 0.6)
                    Add(ups, side.Unit);
            }
        }

        return ups;

        static void Add(List<Vector> to, Vector v)
        {
            // Within half a degree it is the same: shims take up the rest.
            if (!to.Exists(t => t.AngleTo(v) < Math.PI / 360))
                to.Add(v);
        }
    }

    /// <summary>A weld between two assemblies as drawn; of one assembly with itself it closes a ring.</summary>
    internal FitJoint Joint(Joint weld, Assembly held, Assembly brought)
    {
        if (!asDrawn.TryGetValue((weld.Id, held, brought), out var known))
        {
            var part = Fitting.Part(held.Contains(weld.Between[0]) ? weld.Between[0] : weld.Between[1]);
            asDrawn[(weld.Id, held, brought)] = known = Fitting.Of(weld, part, held, brought, _ => Motion.None);
        }

        return known;
    }

    /// <summary>
    /// Whether the side of a weld that comes first along the line is held, by the first rule that decides: the header's side; the side with pipe against fittings alone of no
    /// more than twice its weight; what stands from the step before, against no more than a quarter more; the heavier; the first.
    /// </summary>
    /// <param name="standing">What was joined last and still stands; null at the beginning.</param>
    public bool HoldsFirst(Joint weld, Assembly first, Assembly second, Assembly? standing)
    {
        if (weld.Kind == JointKind.Branch)
            return Fitting.IsHeader(weld, Fitting.Part(weld.Between[0]));
        if (first.HasPipe != second.HasPipe)
        {
            var (pipe, fittings) = first.HasPipe ? (first, second) : (second, first);
            if (fittings.Mass <= 2 * pipe.Mass)
                return first.HasPipe;
        }

        if (standing == first || standing == second)
        {
            var (stands, other) = standing == first ? (first, second) : (second, first);
            if (other.Mass <= 1.25 * stands.Mass)
                return standing == first;
        }

        return Math.Abs(first.Mass - second.Mass) <= 0.01 * Math.Max(first.Mass, second.Mass) || first.Mass > second.Mass;
    }
}
