namespace Rootgap.Site.Splitting;

/// <summary>
/// Rings of a line, opened so that a tree is left. Where a ring is parted anyhow (a bolted joint, a field weld that stays) it is opened there and nothing is lost.
/// Elsewhere every case is written out: the ring is whole, or the first of its places that is parted is this one, so; each case forbids the places before it.
/// </summary>
/// <param name="Opened">What is left out of the tree, and how it is marked; <see cref="Cut.None"/>: the ring is whole.</param>
/// <param name="Only">What is allowed in this case where that is less than the drawing allows.</param>
internal sealed record OpenedRings(IReadOnlyDictionary<SplitEdge, Cut> Opened, IReadOnlyDictionary<SplitEdge, IReadOnlyList<Cut>> Only)
{
    /// <summary>Cases that are searched before the proof is given up.</summary>
    private const int MostCases = 150;

    /// <summary>What the marks at its openings cost.</summary>
    public double Cost { get; } = Opened.Sum(o => o.Key.CostOf(o.Value));

    public IReadOnlyList<Cut> Allowed(SplitEdge edge) => Only.TryGetValue(edge, out var only) ? only : edge.Allowed;

    private static OpenedRings None => new(new Dictionary<SplitEdge, Cut>(), new Dictionary<SplitEdge, IReadOnlyList<Cut>>());

    /// <summary>The cases, and whether they are all that there are; of too many, the one in which each ring is parted at the place that leaves most choice elsewhere.</summary>
    public static (List<OpenedRings> Cases, bool AreAll) Of(SplitModel model)
    {
        var cases = new List<OpenedRings>();
        return Add(None) ? (cases, true) : ([Simple(model)], false);

        bool Add(OpenedRings so)
        {
            if (so.Ring(model) is not { } ring)
            {
                cases.Add(so);
                return cases.Count <= MostCases;
            }

            if (ring.Find(e => so.Allowed(e) is [Cut.Field]) is { } parted)
                return Add(so.With(parted, Cut.Field));
            // A whole ring hangs together by the rest of itself: it is opened where nothing is weighed.
            if (ring.TrueForAll(e => so.Allowed(e).Contains(Cut.None)) && !Add(so.But(ring, Cut.None).With(ring.First(e => e.WholeMass == 0), Cut.None)))
                return false;
            for (var i = 0; i < ring.Count; i++)
            {
                foreach (var cut in so.Allowed(ring[i]).Where(c => c != Cut.None))
                {
                    var one = so.But([.. ring.Take(i)], Cut.None).With(ring[i], cut);
                    // Of one leg no more than one weld is final-fit.
                    if (cut == Cut.FinalFit)
                        one = one.Without(model.Edges.Where(e => e != ring[i] && e.OnLeg == ring[i].OnLeg), Cut.FinalFit);
                    if (one.Only.Values.All(a => a.Count > 0) && !Add(one))
                        return false;
                }

                if (!so.Allowed(ring[i]).Contains(Cut.None))
                    break;
            }

            return true;
        }
    }

    private static OpenedRings Simple(SplitModel model)
    {
        var so = None;
        while (so.Ring(model) is { } ring)
        {
            var edge = ring.MaxBy(e => e.Allowed.Contains(Cut.None) ? e.Allowed.Count : 9)!;
            so = so.With(edge, edge.Allowed.Contains(Cut.Field) ? Cut.Field : edge.Allowed[0]);
        }

        return so;
    }

    private OpenedRings With(SplitEdge edge, Cut cut) => new(new Dictionary<SplitEdge, Cut>(Opened) { [edge] = cut }, Only);

    private OpenedRings But(IEnumerable<SplitEdge> edges, Cut only) => Narrowed(edges, c => c == only);

    private OpenedRings Without(IEnumerable<SplitEdge> edges, Cut cut) => Narrowed(edges, c => c != cut);

    private OpenedRings Narrowed(IEnumerable<SplitEdge> edges, Func<Cut, bool> holds)
    {
        var only = new Dictionary<SplitEdge, IReadOnlyList<Cut>>(Only);
        foreach (var edge in edges)
            only[edge] = [.. Allowed(edge).Where(holds)];
        return new(Opened, only);
    }

    /// <summary>A ring that is not opened yet; null where a tree is left.</summary>
    private List<SplitEdge>? Ring(SplitModel model)
    {
        var seen = new HashSet<SplitNode>();
        var up = new Dictionary<SplitNode, SplitEdge>();
        foreach (var start in model.Nodes.Where(seen.Add))
        {
            var queue = new Queue<SplitNode>([start]);
            while (queue.TryDequeue(out var node))
            {
                foreach (var edge in node.Edges)
                {
                    if (Opened.ContainsKey(edge) || (up.TryGetValue(node, out var from) && from == edge))
                        continue;
                    var other = edge.Other(node);
                    if (!seen.Add(other))
                        return Closed(edge, up);
                    up[other] = edge;
                    queue.Enqueue(other);
                }
            }
        }

        return null;
    }

    /// <summary>The edge that closes a ring, and both ways up from it to where they meet.</summary>
    private static List<SplitEdge> Closed(SplitEdge closing, Dictionary<SplitNode, SplitEdge> up)
    {
        var (a, b) = (Up(closing.A), Up(closing.B));
        return [closing, .. a.Except(b), .. b.Except(a)];

        List<SplitEdge> Up(SplitNode node)
        {
            var edges = new List<SplitEdge>();
            while (up.TryGetValue(node, out var edge))
            {
                edges.Add(edge);
                node = edge.Other(node);
            }

            return edges;
        }
    }
}
