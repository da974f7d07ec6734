using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Papers;

/// <summary>The inside of a line as short stretches that hang together: where water stands, where air stays.</summary>
/// <remarks>Each part's middle line is walked in steps, as far as no pipe lies in it; joints tie the parts. A check valve lets through one way, water and air alike, and neither where nobody says its flow.</remarks>
internal sealed class BoreMap
{
    /// <summary>Longest step along a middle line, mm.</summary>
    private const double Step = 100;

    private const int BendSteps = 6;

    /// <summary>A place on the middle line.</summary>
    /// <param name="Part">Of which part.</param>
    /// <param name="Area">Of the bore, mm².</param>
    public sealed record Node(int Index, Part Part, Point At, double Area)
    {
        /// <summary>Highest place of the bore there, mm.</summary>
        public double Top { get; private set; } = At.Z;

        /// <summary>Lowest.</summary>
        public double Bottom { get; private set; } = At.Z;

        /// <summary>Reaches so far up and down, mm: what lies there, or opens into it there, runs off over its lower lip, and air over its upper one.</summary>
        public void Widen(double half) => (Top, Bottom) = (Math.Max(Top, At.Z + half), Math.Min(Bottom, At.Z - half));

        /// <summary>Half of the lengths to its neighbours on the same part, mm.</summary>
        public double Length { get; set; }

        public List<int> Next { get; } = [];

        /// <summary>Neighbours to which water, or air, may go from here.</summary>
        public List<int> Out { get; } = [];

        public double Volume => Area * Length;
    }

    private readonly List<Node> nodes = [];
    private readonly Dictionary<string, List<Node>> byPart = new(StringComparer.Ordinal);

    /// <summary>What a stretch lets through.</summary>
    private enum Lets
    {
        BothWays,
        Along,
        Neither,
    }

    private readonly Route route;
    private readonly ILookup<string, Joint> joints;

    /// <param name="isOut">What is taken out of the line, and has no bore in it.</param>
    public BoreMap(Route route, IEnumerable<Part>? isOut = null)
    {
        this.route = route;
        joints = route.Joints.SelectMany(j => j.Between.Select(id => (id, j))).ToLookup(x => x.id, x => x.j, StringComparer.Ordinal);
        var gone = (isOut ?? []).Select(p => p.Id).ToHashSet(StringComparer.Ordinal);
        foreach (var part in route.Pipes.Cast<Part>().Concat(route.Components.Where(c => !c.LiesInJoint)))
        {
            if (!gone.Contains(part.Id))
                Walk(part);
        }

        // A part that has no length, as the standard has none of its size, has no bore either: its finding stands elsewhere.
        foreach (var empty in byPart.Where(p => p.Value.Count == 0).Select(p => p.Key).ToList())
            byPart.Remove(empty);
        foreach (var joint in route.Joints)
        {
            if (joint.Between is not [var a, var b] || !byPart.TryGetValue(a, out var first) || !byPart.TryGetValue(b, out var second))
                continue;
            var (one, other) = (Nearest(first, joint.At), Nearest(second, joint.At));
            Tie(one, other, Lets.BothWays);
            if (joint.Kind == JointKind.Branch)
            {
                // A mouth in the side of an upright bore.
                var header = one.Area > other.Area ? one : other;
                header.Widen((header == one ? other.Top - other.Bottom : one.Top - one.Bottom) / 2);
            }
        }
    }

    public IReadOnlyList<Node> Nodes => nodes;

    /// <summary>Volume of the bore, mm³; fittings by the length of their middle lines.</summary>
    public double Volume => nodes.Sum(n => n.Volume);

    /// <summary>The place of a part nearest to a point; null where the part has none.</summary>
    public Node? At(string part, Point at) => byPart.TryGetValue(part, out var own) ? Nearest(own, at) : null;

    private static Node Nearest(List<Node> among, Point at) => among.MinBy(n => n.At.To(at))!;

    private static void Tie(Node from, Node to, Lets lets)
    {
        from.Next.Add(to.Index);
        to.Next.Add(from.Index);
        if (lets != Lets.Neither)
            from.Out.Add(to.Index);
        if (lets == Lets.BothWays)
            to.Out.Add(from.Index);
    }

    /// <summary>All to which water may go from some places, those among them.</summary>
    public HashSet<int> Reach(IEnumerable<Node> from)
    {
        var reached = from.Select(n => n.Index).ToHashSet();
        var stack = new Stack<int>(reached);
        while (stack.TryPop(out var index))
        {
            foreach (var next in nodes[index].Out)
            {
                if (reached.Add(next))
                    stack.Push(next);
            }
        }

        return reached;
    }

    /// <summary>The places by what hangs together, whatever a check valve lets through: more than one where a part is taken out.</summary>
    public IReadOnlyList<IReadOnlyList<Node>> Bores()
    {
        List<IReadOnlyList<Node>> bores = [];
        var seen = new HashSet<int>();
        foreach (var begin in nodes)
        {
            if (!seen.Add(begin.Index))
                continue;
            List<Node> bore = [begin];
            for (var i = 0; i < bore.Count; i++)
                bore.AddRange(bore[i].Next.Where(seen.Add).Select(n => nodes[n]));
            bores.Add(bore);
        }

        return bores;
    }

    /// <summary>Where the bore of a fitting itself begins at one of its ends: where the pipe ends that goes into it, else at the end.</summary>
    private Point Mouth(Component part, Port port)
    {
        foreach (var pipe in joints[part.Id].SelectMany(j => j.Between).Select(route.PipeOf).OfType<PipePiece>())
        {
            foreach (var end in pipe.Ports)
            {
                var inside = port.At - end.At;
                if (end.Face.Dot(port.Face) < -0.99 && inside.Dot(port.Face) > 0 && inside.SquareTo(port.Face).Length < 1 && end.At.To(port.At) < Math.Max(part.Path, Step))
                    return end.At;
            }
        }

        return port.At;
    }

    private void Walk(Part part)
    {
        if (part.Inside <= 0)
            return;
        byPart[part.Id] = [];
        switch (part)
        {
            case PipePiece pipe:
                // Where a branch stands on it there is a place.
                var from = pipe.Start;
                foreach (var at in joints[pipe.Id].Select(j => (j.At - pipe.Start).Dot(pipe.Direction)).Where(d => d > 1 && d < pipe.Start.To(pipe.End) - 1).Order())
                {
                    var to = pipe.Start + (pipe.Direction * at);
                    Line(part, from, to, pipe.Inside, pipe.Inside);
                    from = to;
                }

                Line(part, from, pipe.End, pipe.Inside, pipe.Inside);
                break;
            case Bent { Arc: { } arc } bent:
                Line(part, Mouth(bent, bent.In), arc.On(0).At, part.Inside, part.Inside);
                for (var i = 0; i <= BendSteps; i++)
                {
                    var (at, along) = arc.On(arc.Turn * i / BendSteps);
                    if (i > 0 || byPart[part.Id].Count == 0)
                        Add(part, at, along, part.Inside, i > 0 ? byPart[part.Id][^1] : null);
                }

                Line(part, arc.On(arc.Turn).At, Mouth(bent, bent.Out), part.Inside, part.Inside);
                break;
            case Bent corner:
                Line(part, Mouth(corner, corner.In), corner.WorkPoint, part.Inside, part.Inside);
                Line(part, corner.WorkPoint, Mouth(corner, corner.Out), part.Inside, part.Inside);
                break;
            case Tee tee:
                Line(part, Mouth(tee, tee.RunIn), tee.WorkPoint, part.Inside, part.Inside);
                Line(part, tee.WorkPoint, Mouth(tee, tee.RunOut), part.Inside, part.Inside);
                // What of the branch lies in the run is the run's.
                var mouth = Mouth(tee, tee.Branch);
                var root = tee.WorkPoint + (tee.Branch.Face * Math.Min(part.Inside / 2, tee.WorkPoint.To(mouth) * 0.9));
                Line(part, root, mouth, tee.Branch.Bore, tee.Branch.Bore);
                if (byPart[part.Id].Count > 0)
                {
                    var (middle, side) = (Nearest(byPart[part.Id], tee.WorkPoint), Nearest(byPart[part.Id], root));
                    Tie(middle, side, Lets.BothWays);
                    middle.Widen((side.Top - side.Bottom) / 2);
                }

                break;
            case Valve { Kind: ValveKind.Check } valve:
                var isAlong = route.Runs[valve.Run].Run.FlowsAlong;
                var (first, last) = isAlong == false ? (valve.Out, valve.In) : (valve.In, valve.Out);
                Line(part, Mouth(valve, first), Mouth(valve, last), part.Inside, part.Inside, isAlong is null ? Lets.Neither : Lets.Along, double.PositiveInfinity);
                break;
            case Cap cap:
                Line(part, Mouth(cap, cap.Rim), cap.WorkPoint, part.Inside, part.Inside);
                break;
            case Component { Ports: [var a, var b, ..] } other:
                Line(part, Mouth(other, a), Mouth(other, b), a.Bore > 0 ? a.Bore : part.Inside, b.Bore > 0 ? b.Bore : part.Inside, square: a.Face.Dot(b.Face) < -0.99 ? b.Face : null);
                break;
            default:
                break;
        }
    }

    /// <summary>A straight stretch; its first place is the last one of the same part where they are one.</summary>
    /// <param name="square">To what its bore is round, where it is not its own way: an eccentric reducer's stays square to the line.</param>
    private void Line(Part part, Point from, Point to, double boreFrom, double boreTo, Lets lets = Lets.BothWays, double step = Step, Vector? square = null)
    {
        var length = from.To(to);
        if (length < Tolerance.Noise)
            return;
        var steps = Math.Max(1, (int)Math.Ceiling(length / step));
        var along = square ?? (to - from).Unit;
        var last = byPart[part.Id].Find(n => n.At.To(from) < 0.01);
        // At a corner the bore is as wide as each of the two that meet there.
        last?.Widen(boreFrom / 2 * Upright(along));
        last ??= Add(part, from, along, boreFrom, null);
        for (var i = 1; i <= steps; i++)
        {
            var share = (double)i / steps;
            last = Add(part, from.Toward(to, share), along, boreFrom + ((boreTo - boreFrom) * share), last, lets);
        }
    }

    /// <summary>How much of a bore's radius stands upright.</summary>
    private static double Upright(Vector along) => Math.Sqrt(Math.Max(0, 1 - (along.Z * along.Z)));

    /// <summary>A place, tied to the one before it.</summary>
    private Node Add(Part part, Point at, Vector along, double bore, Node? before, Lets lets = Lets.BothWays)
    {
        var node = new Node(nodes.Count, part, at, Math.PI * bore * bore / 4);
        node.Widen(bore / 2 * Upright(along));
        nodes.Add(node);
        byPart[part.Id].Add(node);
        if (before is not null)
        {
            Tie(before, node, lets);
            var half = before.At.To(at) / 2;
            before.Length += half;
            node.Length += half;
        }

        return node;
    }

    /// <summary>
    /// How high water stands at each place when it may run off at the openings: over the lowest sill on its best way there, mm; endless where no way is.
    /// Turned about, how low air reaches down when it may leave at the openings.
    /// </summary>
    /// <param name="openings">Places that are open, each with the height to which it lets water down, or air up.</param>
    public double[] Standing(IEnumerable<(Node At, double Height)> openings, bool air)
    {
        double Sill(Node n) => air ? -n.Top : n.Bottom;
        var level = Enumerable.Repeat(double.PositiveInfinity, nodes.Count).ToArray();
        var queue = new PriorityQueue<int, double>();
        foreach (var (at, height) in openings)
        {
            var start = Math.Max(Sill(at), air ? -height : height);
            if (start < level[at.Index])
            {
                level[at.Index] = start;
                queue.Enqueue(at.Index, start);
            }
        }

        // Water and air go to the opening, so the way is walked against them.
        var into = Into();
        while (queue.TryDequeue(out var index, out var reached))
        {
            if (reached > level[index])
                continue;
            foreach (var other in into[index])
            {
                var over = Math.Max(reached, Sill(nodes[other]));
                if (over < level[other])
                {
                    level[other] = over;
                    queue.Enqueue(other, over);
                }
            }
        }

        return level;
    }

    private List<int>[] Into()
    {
        var into = nodes.Select(_ => new List<int>()).ToArray();
        foreach (var node in nodes)
        {
            foreach (var to in node.Out)
                into[to].Add(node.Index);
        }

        return into;
    }

    /// <summary>Share of a round bore that lies below a height, by its place between bottom and top.</summary>
    public static double Filled(double bottom, double top, double level)
    {
        if (level <= bottom)
            return 0;
        if (level >= top)
            return 1;
        // A circle filled to a share of its height: the segment's area against the whole.
        var x = 1 - (2 * (level - bottom) / (top - bottom));
        return (Math.Acos(x) - (x * Math.Sqrt(1 - (x * x)))) / Math.PI;
    }
}
