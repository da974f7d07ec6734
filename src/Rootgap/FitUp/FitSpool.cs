using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.FitUp;

/// <summary>A part that is screwed on when the welds are cold.</summary>
/// <param name="Thread">The joint.</param>
/// <param name="On">What it goes into or on: a welded part, or one screwed on before.</param>
/// <param name="Part">What is screwed on.</param>
public sealed record ScrewedOn(Joint Thread, FitPart On, FitPart Part);

/// <summary>A spool before its first joint is made: its welds, its pieces, and which of two assemblies is held.</summary>
public sealed class FitSpool
{
    private readonly Dictionary<(string, Assembly, Assembly), FitJoint> asDrawn = [];

    internal FitSpool(FitJoints fitting, Spool spool)
    {
        (Fitting, Spool) = (fitting, spool);
        Parts = [.. spool.Components.Select(c => c.Id).Concat(spool.Cuts.Select(c => c.Pipe.Id)).Select(fitting.Part).OrderBy(p => p.Order)];
        Welds = [.. spool.Joints.Where(fitting.Welds.Contains)];
        var pieceOf = Parts.ToDictionary(p => p.Id, p => p.Order, StringComparer.Ordinal);
        List<Joint> threads = [.. spool.Joints.Where(j => j.Kind == JointKind.Threaded && j.Between is [var a, var b] && a != b && pieceOf.ContainsKey(a) && pieceOf.ContainsKey(b))];
        Screwed = ScrewedOn(threads);
        // What is screwed in between welds is made up before anything is welded to it.
        foreach (var joint in threads.Except(Screwed.Select(s => s.Thread)))
        {
            var (one, other) = (pieceOf[joint.Between[0]], pieceOf[joint.Between[1]]);
            foreach (var part in Parts.Where(p => pieceOf[p.Id] == Math.Max(one, other)))
                pieceOf[part.Id] = Math.Min(one, other);
        }

        Pieces = [.. Parts.Where(p => !Screwed.Any(s => s.Part == p)).GroupBy(p => pieceOf[p.Id]).Select(Assembly.Of)];
        Ups = Directions();
    }

    public FitJoints Fitting { get; }

    public Spool Spool { get; }

    /// <summary>Its parts, along the line.</summary>
    public IReadOnlyList<FitPart> Parts { get; }

    /// <summary>Its welds with both sides in it, in line order.</summary>
    public IReadOnlyList<Joint> Welds { get; }

    /// <summary>So near to a weld a valve's seats and packing suffer from its heat, mm from the valve's end (common practice).</summary>
    private const double Heat = 150;

    /// <summary>Whether a weld heats a part that heat spoils: a valve.</summary>
    public static bool IsHeated(Joint weld, FitPart part) => part.Of is Valve && part.Ends.Any(e => e.Drawn.To(weld.At) < Heat);

    /// <summary>What is screwed on when its welds are cold, from the welded part outward: heat spoils seats, packing and thread seal, and the weight would hang on the tacks.</summary>
    public IReadOnlyList<ScrewedOn> Screwed { get; }

    // Whatever hangs on a welded part by threads alone and leads to no other weld of the spool; found from its far end inward.
    private List<ScrewedOn> ScrewedOn(IEnumerable<Joint> threads)
    {
        var welded = Welds.SelectMany(w => w.Between).ToHashSet(StringComparer.Ordinal);
        List<Joint> left = [.. threads];
        List<ScrewedOn> found = [];
        for (var isMore = true; isMore;)
        {
            isMore = false;
            foreach (var part in Parts)
            {
                if (welded.Contains(part.Id) || left.Where(j => j.Between.Contains(part.Id)).ToList() is not [var thread] || !LeadsToWeld(part.Id, left, welded))
                    continue;
                found.Insert(0, new(thread, Fitting.Part(thread.Between[0] == part.Id ? thread.Between[1] : thread.Between[0]), part));
                left.Remove(thread);
                isMore = true;
            }
        }

        return found;
    }

    private static bool LeadsToWeld(string part, List<Joint> threads, HashSet<string> welded)
    {
        HashSet<string> reached = [part];
        while (threads.SelectMany(j => j.Between).Where(id => !reached.Contains(id) && threads.Exists(j => j.Between.Contains(id) && j.Between.Any(reached.Contains))).ToList() is { Count: > 0 } more)
            reached.UnionWith(more);
        return reached.Overlaps(welded);
    }

    /// <summary>What it begins with: single parts, and what is screwed together before its welds.</summary>
    public IReadOnlyList<Assembly> Pieces { get; }

    /// <summary>The best order of its welds: cards, sheets and checks all ask for it, and it is looked for once.</summary>
    internal IReadOnlyList<FitStep> Order { get => field ??= FitOrder.Find(this); }

    /// <summary>Directions of the parts that may look up in a set-up, unit.</summary>
    internal IReadOnlyList<Vector> Ups { get; }

    /// <summary>Something at a weld was cut longer for what the weld draws in.</summary>
    public bool DrawsIn(Joint weld) => weld.Between.Any(id => Fitting.Net.EndAt(weld, Fitting.Part(id)) is { } end && (end.Nose - end.Drawn).Length > 1e-9);

    /// <summary>Something at any of its welds was.</summary>
    public bool DrawsIn() => Welds.Any(DrawsIn);

    /// <summary>The spool before its first joint; what is screwed on later lies with the part that it goes on.</summary>
    public Construction Begin() => Construction.Begin(Pieces, Screwed);

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
