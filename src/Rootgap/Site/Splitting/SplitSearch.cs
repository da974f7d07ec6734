using System.Runtime.InteropServices;
using Rootgap.Drawings;
using Rootgap.Measure;

namespace Rootgap.Site.Splitting;

/// <summary>
/// Searches the cheapest marks. The line is a tree once its rings are opened (<see cref="OpenedRings"/>): below a cut everything is by itself, but for what it leaves open
/// upward (things outside that no final-fit weld parts from the cut yet). So each cut is solved once, by trying every connected stretch that hangs on it and fits the envelope.
/// </summary>
internal sealed class SplitSearch
{
    /// <summary>Stretches tried before the search gives up the proof.</summary>
    private const int MostStretches = 400_000;

    /// <summary>How many plans are kept for each way of leaving a cut.</summary>
    private readonly int kept;

    private readonly SplitModel model;
    private readonly BoxFrames frames;
    private readonly double[] limits;
    private readonly double extra;
    private readonly OpenedRings rings;
    private readonly Dictionary<(SplitEdge, Cut, bool), List<Partial>> solved = [];
    private readonly Dictionary<SplitEdge, SplitNode> childOf = [];
    private readonly Dictionary<SplitEdge, double> leastFrom = [];
    private readonly double[] spread;
    private readonly uint[,] pipesBetween;
    private readonly double bound;
    private int stretches;

    /// <summary>A plan for all below a cut: what it leaves open, what it costs. Marks are a list that shares its tail.</summary>
    internal sealed record Partial(Open Open, double Cost, double Spread, int Pieces, Chain? Marks);

    internal sealed record Chain(SplitEdge Edge, Cut Cut, Chain? Next);

    /// <summary>Things outside that are seen from a cut, each with the directions of the final-fit welds that stand between.</summary>
    internal readonly record struct Open(ulong Key, (int Thing, uint Taken)[] Things);

    /// <param name="spread">Forecast variance along each direction, mm²: breaks ties of cost.</param>
    /// <param name="most">Plans that cost more are of no interest: enough are known that do not.</param>
    /// <param name="kept">How many plans are looked for, three at least.</param>
    public SplitSearch(SplitModel model, OpenedRings rings, double[] spread, double most, int kept)
    {
        bound = most + 1e-7 - rings.Cost;
        (this.model, this.rings, this.spread) = (model, rings, spread);
        frames = new BoxFrames(model.Directions);
        var shop = model.Shop;
        limits = [shop.EnvelopeLength, shop.EnvelopeWidth, shop.EnvelopeHeight];
        Array.Sort(limits);
        extra = shop.FinalFitExtra;
        this.kept = kept;
        pipesBetween = new uint[model.Outside.Count, model.Outside.Count];
    }

    /// <summary>False where there were too many stretches to try them all.</summary>
    public bool HasTriedAll { get; private set; } = true;

    /// <summary>The best plans, cheapest first; empty where nothing fits. Of the ways round a ring only one is looked at.</summary>
    public List<Partial> Best()
    {
        var count = kept;
        var whole = new List<Partial> { new(new(0, []), 0, 0, 0, null) };
        var seen = new HashSet<SplitNode>();
        foreach (var start in model.Nodes.OrderBy(n => TreeEdges(n).Count() > 1).ThenBy(n => n.Index))
        {
            if (seen.Contains(start))
                continue;
            Root(start, seen);
            PipesBetween(start);
            whole = Joined(whole, Stretch(start, null, used: false).Select(p => p with { Open = new(0, []) }).ToList(), count);
        }

        foreach (var (edge, cut) in rings.Opened.Where(r => r.Value != Cut.None))
            whole = [.. whole.Select(p => Paid(p, edge, cut))];
        return [.. whole.OrderBy(p => p, Order.Instance).Take(count)];
    }

    private IEnumerable<SplitEdge> TreeEdges(SplitNode node) => node.Edges.Where(e => !rings.Opened.ContainsKey(e));

    private void Root(SplitNode start, HashSet<SplitNode> seen)
    {
        var stack = new Stack<SplitNode>([start]);
        seen.Add(start);
        while (stack.TryPop(out var node))
        {
            foreach (var edge in TreeEdges(node))
            {
                if (!seen.Add(edge.Other(node)))
                    continue;
                childOf[edge] = edge.Other(node);
                stack.Push(edge.Other(node));
            }
        }
    }

    private IEnumerable<SplitEdge> Below(SplitNode node, SplitEdge? from) => TreeEdges(node).Where(e => !ReferenceEquals(e, from));

    /// <summary>Directions of the pipes on the one way between each two things outside.</summary>
    private void PipesBetween(SplitNode start)
    {
        Walk(start, null, []);

        // Gives the things seen below, each with the directions on the way up to here.
        List<(int Thing, uint Pipes)> Walk(SplitNode node, SplitEdge? from, List<(int, uint)> all)
        {
            var own = node.PipeDirection >= 0 ? 1u << (node.PipeDirection & 31) : 0;
            var here = node.Outside.Select(o => (Thing: o, Pipes: own)).ToList();
            Pair(here, here);
            foreach (var edge in Below(node, from))
            {
                var below = Walk(edge.Other(node), edge, all).Select(t => (t.Thing, Pipes: t.Pipes | own)).ToList();
                Pair(here, below);
                here.AddRange(below);
            }

            return here;
        }

        void Pair(List<(int Thing, uint Pipes)> a, List<(int Thing, uint Pipes)> b)
        {
            foreach (var (i, x) in a)
            {
                foreach (var (j, y) in b)
                {
                    if (i != j)
                        pipesBetween[i, j] = pipesBetween[j, i] = x | y;
                }
            }
        }
    }

    private List<Partial> Solved(SplitEdge edge, Cut cut, bool used)
    {
        var key = (edge, cut, used);
        if (solved.TryGetValue(key, out var known))
            return known;
        var below = Stretch(childOf[edge], edge, used || cut == Cut.FinalFit, cut == Cut.FinalFit && ReferenceEquals(edge.ExtraOn, childOf[edge]));
        return solved[key] = Thin(below.Select(p => Paid(p with { Open = cut == Cut.FinalFit ? Taken(p.Open, edge.Direction) : p.Open }, edge, cut)));
    }

    /// <summary>What a cut here and all below it cost at least; endless where nothing fits.</summary>
    private double LeastFrom(SplitEdge edge)
    {
        if (!leastFrom.TryGetValue(edge, out var least))
            leastFrom[edge] = least = rings.Allowed(edge).Where(c => c != Cut.None).SelectMany(c => Solved(edge, c, used: false)).Select(p => p.Cost).DefaultIfEmpty(double.PositiveInfinity).Min();
        return least;
    }

    private Partial Paid(Partial p, SplitEdge edge, Cut cut) => edge.Place is null ? p : p with
    {
        Cost = p.Cost + edge.Place.Cost(cut == Cut.FinalFit),
        Spread = p.Spread - (cut == Cut.FinalFit ? spread[edge.Direction] : 0),
        Pieces = p.Pieces + (edge.Place.Along is null ? 0 : 1),
        Marks = new(edge, cut, p.Marks),
    };

    /// <summary>All that may hang on a cut: every connected stretch from a node down that fits, with the best of what lies beyond its own cuts.</summary>
    private List<Partial> Stretch(SplitNode top, SplitEdge? from, bool used, bool extraAtTop = false)
    {
        var found = new List<Partial>();
        var size = Grown(new SpoolSize(frames), top, null);
        if (extraAtTop)
            size = size.WithExtra(from!, extra);
        Grow([top], size, [.. Below(top, from)], 0, [], 0);
        return Thin(found);

        void Grow(List<SplitNode> nodes, SpoolSize grown, List<SplitEdge> frontier, int at, List<SplitEdge> cuts, double least)
        {
            if (least > bound)
                return;
            if (!top.IsLoose && grown.IsHopeless(limits, model.Shop.EnvelopeMass))
                return;
            if (++stretches > MostStretches)
            {
                HasTriedAll = false;
                return;
            }

            if (at == frontier.Count)
            {
                found.AddRange(Combined(nodes, grown, cuts, from, used));
                return;
            }

            var edge = frontier[at];
            var child = childOf[edge];
            if (rings.Allowed(edge).Contains(Cut.None))
                Grow([.. nodes, child], Grown(grown, child, edge), [.. frontier, .. Below(child, edge)], at + 1, cuts, least);
            if (rings.Allowed(edge).Any(c => c != Cut.None))
                Grow(nodes, grown, frontier, at + 1, [.. cuts, edge], least + LeastFrom(edge));
        }
    }

    private SpoolSize Grown(SpoolSize size, SplitNode node, SplitEdge? edge)
    {
        size = size.With(node, edge);
        foreach (var (opened, cut) in rings.Opened)
        {
            if (cut == Cut.FinalFit && ReferenceEquals(opened.ExtraOn, node))
                size = size.WithExtra(opened, extra);
        }

        return size;
    }

    /// <summary>The stretch with each way of marking its lower cuts that fits, and the best below each.</summary>
    private List<Partial> Combined(List<SplitNode> nodes, SpoolSize size, List<SplitEdge> cuts, SplitEdge? from, bool used)
    {
        var isLoose = nodes.TrueForAll(n => n.IsLoose);
        if (!isLoose && !size.Best(limits, model.Shop.EnvelopeMass).Fits)
            return [];
        var own = new Partial(OpenAt(nodes), isLoose ? 0 : ThreeDirections(nodes), 0, 0, null);
        if (!IsClosed(own.Open.Things))
            return [];
        var found = new List<Partial>();
        With(0, size, [own]);
        return found;

        void With(int at, SpoolSize grown, List<Partial> soFar)
        {
            if (at == cuts.Count)
            {
                if (isLoose || grown.Best(limits, model.Shop.EnvelopeMass).Fits)
                    found.AddRange(soFar);
                return;
            }

            var edge = cuts[at];
            foreach (var cut in rings.Allowed(edge))
            {
                // Of one leg no more than one weld is final-fit.
                var usedHere = used && from is not null && edge.OnLeg == from.OnLeg && edge.OnLeg.Run >= 0;
                if (cut == Cut.None || (cut == Cut.FinalFit && usedHere))
                    continue;
                var isOurs = cut == Cut.FinalFit && edge.ExtraOn is not null && !ReferenceEquals(edge.ExtraOn, childOf[edge]);
                var joined = Joined(soFar, Solved(edge, cut, usedHere), kept);
                if (joined.Count > 0)
                    With(at + 1, isOurs ? grown.WithExtra(edge, extra) : grown, joined);
            }
        }
    }

    private double ThreeDirections(List<SplitNode> nodes)
    {
        var span = new Forecasting.Span3();
        foreach (var node in nodes)
        {
            if (node.PipeDirection >= 0)
                span.Add(model.Directions[node.PipeDirection]);
        }

        return span.Count == 3 ? model.Rules.ThreeDirections * nodes.Max(n => n.Inches) : 0;
    }

    private Open OpenAt(List<SplitNode> nodes)
    {
        var things = new List<(int, uint)>();
        foreach (var thing in nodes.SelectMany(n => n.Outside))
        {
            var isFinalFit = model.Outside[thing].Place == WeldPlace.FinalFit;
            if (!isFinalFit || model.Rules.AllDirections)
                things.Add((thing, isFinalFit ? 1u << (model.OutsideAxes[thing] & 31) : 0));
        }

        return OpenOf(things);
    }

    private static Open OpenOf(List<(int Thing, uint Taken)> things)
    {
        things.Sort();
        var key = 1469598103934665603UL;
        foreach (var (thing, taken) in things)
            key = (((key ^ (uint)thing) * 1099511628211UL) ^ taken) * 1099511628211UL;
        return new(things.Count == 0 ? 0 : key, [.. things]);
    }

    /// <summary>What stays open above a final-fit weld: nothing, or with all directions asked for each thing with one direction more.</summary>
    private Open Taken(Open open, int direction) =>
        model.Rules.AllDirections ? OpenOf([.. open.Things.Select(t => (t.Thing, t.Taken | (1u << (direction & 31))))]) : new(0, []);

    /// <summary>Whether each two things that meet here have what they need between them.</summary>
    private bool IsClosed(ReadOnlySpan<(int Thing, uint Taken)> things)
    {
        for (var i = 0; i < things.Length; i++)
        {
            for (var j = i + 1; j < things.Length; j++)
            {
                var taken = things[i].Taken | things[j].Taken;
                if (taken == 0 || (model.Rules.AllDirections && !Spans(taken, pipesBetween[things[i].Thing, things[j].Thing])))
                    return false;
            }
        }

        return true;
    }

    private bool Spans(uint taken, uint pipes)
    {
        var span = new Forecasting.Span3();
        for (var d = 0; d < model.Directions.Count; d++)
        {
            if ((taken & (1u << (d & 31))) != 0)
                span.Add(model.Directions[d]);
        }

        for (var d = 0; d < model.Directions.Count; d++)
        {
            if ((pipes & (1u << (d & 31))) != 0 && span.Left(model.Directions[d]).Length >= Forecasting.Span3.Least)
                return false;
        }

        return true;
    }

    /// <summary>Each of one with each of the other where what they leave open goes together.</summary>
    private List<Partial> Joined(List<Partial> a, List<Partial> b, int most)
    {
        var all = new List<Partial>(a.Count * b.Count);
        foreach (var x in a)
        {
            foreach (var y in b)
            {
                var open = x.Open;
                if (y.Open.Things.Length > 0)
                {
                    List<(int, uint)> both = [.. x.Open.Things, .. y.Open.Things];
                    if (!IsClosed(CollectionsMarshal.AsSpan(both)))
                        continue;
                    open = OpenOf(both);
                }

                if (x.Cost + y.Cost > bound)
                    continue;
                all.Add(new(open, x.Cost + y.Cost, x.Spread + y.Spread, x.Pieces + y.Pieces, Linked(x.Marks, y.Marks)));
            }
        }

        return Thin(all, Math.Max(most, kept));
    }

    private static Chain? Linked(Chain? a, Chain? b)
    {
        if (a is null)
            return b;
        for (var mark = b; mark is not null; mark = mark.Next)
            a = new(mark.Edge, mark.Cut, a);
        return a;
    }

    private List<Partial> Thin(IEnumerable<Partial> all) => Thin(all, kept);

    /// <summary>Of those that leave the same open, the best.</summary>
    private static List<Partial> Thin(IEnumerable<Partial> all, int most)
    {
        var thin = new List<Partial>();
        foreach (var same in all.GroupBy(p => p.Open.Key))
            thin.AddRange(same.OrderBy(p => p, Order.Instance).Take(most));
        return thin;
    }

    /// <summary>Cost; of equal cost the greater spread taken up; then fewer pieces; then the earlier legs.</summary>
    internal sealed class Order : IComparer<Partial>
    {
        public static readonly Order Instance = new();

        public int Compare(Partial? x, Partial? y)
        {
            var (a, b) = (x!, y!);
            if (Math.Abs(a.Cost - b.Cost) > 1e-7)
                return a.Cost.CompareTo(b.Cost);
            if (Math.Abs(a.Spread - b.Spread) > 1e-4)
                return a.Spread.CompareTo(b.Spread);
            return a.Pieces != b.Pieces ? a.Pieces.CompareTo(b.Pieces) : Compare(Keys(a.Marks), Keys(b.Marks));
        }

        private static int Compare(List<(int, int, double, int)> a, List<(int, int, double, int)> b)
        {
            for (var i = 0; i < Math.Min(a.Count, b.Count); i++)
            {
                if (a[i].CompareTo(b[i]) is not 0 and var c)
                    return c;
            }

            return a.Count.CompareTo(b.Count);
        }

        private static List<(int Run, int Leg, double Along, int Cut)> Keys(Chain? marks)
        {
            var keys = new List<(int, int, double, int)>();
            for (var mark = marks; mark is not null; mark = mark.Next)
                keys.Add((mark.Edge.Place!.Run, mark.Edge.Place.Leg, mark.Edge.Place.Along ?? (mark.Edge.Place.AtBegin ? -1 : 1e9), (int)mark.Cut));
            keys.Sort();
            return keys;
        }
    }
}
