using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Papers;

/// <summary>The inside of a line as short stretches that hang together: where water stands, where air stays.</summary>
/// <remarks>Each part's middle line is walked in steps; joints tie the parts. A check valve lets water through one way.</remarks>
internal sealed class BoreMap
{
    /// <summary>Longest step along a middle line, mm.</summary>
    private const double Step = 100;

    private const int BendSteps = 6;

    /// <summary>A place on the middle line.</summary>
    /// <param name="Part">Of which part.</param>
    /// <param name="Top">Highest place of the bore there, mm.</param>
    /// <param name="Bottom">Lowest.</param>
    /// <param name="Area">Of the bore, mm².</param>
    public sealed record Node(int Index, Part Part, Point At, double Top, double Bottom, double Area)
    {
        /// <summary>Half of the lengths to its neighbours on the same part, mm.</summary>
        public double Length { get; set; }

        public List<int> Next { get; } = [];

        /// <summary>Neighbours to which water may go from here.</summary>
        public List<int> Out { get; } = [];

        public double Volume => Area * Length;
    }

    private readonly List<Node> nodes = [];
    private readonly Dictionary<string, List<Node>> byPart = new(StringComparer.Ordinal);

    public BoreMap(Route route)
    {
        foreach (var part in route.Pipes.Cast<Part>().Concat(route.Components.Where(c => !c.LiesInJoint)))
            Walk(route, part);
        // A part that has no length, as the standard has none of its size, has no bore either: its finding stands elsewhere.
        foreach (var empty in byPart.Where(p => p.Value.Count == 0).Select(p => p.Key).ToList())
            byPart.Remove(empty);
        foreach (var joint in route.Joints)
        {
            if (joint.Between is not [var a, var b] || !byPart.TryGetValue(a, out var first) || !byPart.TryGetValue(b, out var second))
                continue;
            Tie(Nearest(first, joint.At), Nearest(second, joint.At), oneWay: false);
        }
    }

    public IReadOnlyList<Node> Nodes => nodes;

    /// <summary>Volume of the bore, mm³; fittings by the length of their middle lines.</summary>
    public double Volume => nodes.Sum(n => n.Volume);

    /// <summary>The place of a part nearest to a point; null where the part has none.</summary>
    public Node? At(string part, Point at) => byPart.TryGetValue(part, out var own) ? Nearest(own, at) : null;

    private static Node Nearest(List<Node> among, Point at) => among.MinBy(n => n.At.To(at))!;

    private static void Tie(Node from, Node to, bool oneWay)
    {
        from.Next.Add(to.Index);
        to.Next.Add(from.Index);
        from.Out.Add(to.Index);
        if (!oneWay)
            to.Out.Add(from.Index);
    }

    private void Walk(Route route, Part part)
    {
        if (part.Inside <= 0)
            return;
        byPart[part.Id] = [];
        switch (part)
        {
            case PipePiece pipe:
                Line(part, pipe.Start, pipe.End, pipe.Inside, pipe.Inside, oneWay: false);
                break;
            case Bent { Arc: { } arc } bent:
                Line(part, bent.In.At, arc.On(0).At, part.Inside, part.Inside, oneWay: false);
                for (var i = 0; i <= BendSteps; i++)
                {
                    var (at, along) = arc.On(arc.Turn * i / BendSteps);
                    if (i > 0 || byPart[part.Id].Count == 0)
                        Add(part, at, along, part.Inside, i > 0 ? byPart[part.Id][^1] : null, oneWay: false);
                }

                Line(part, arc.On(arc.Turn).At, bent.Out.At, part.Inside, part.Inside, oneWay: false);
                break;
            case Tee tee:
                Line(part, tee.RunIn.At, tee.WorkPoint, part.Inside, part.Inside, oneWay: false);
                Line(part, tee.WorkPoint, tee.RunOut.At, part.Inside, part.Inside, oneWay: false);
                // What of the branch lies in the run is the run's.
                var root = tee.WorkPoint + (tee.Branch.Face * Math.Min(part.Inside / 2, tee.WorkPoint.To(tee.Branch.At) * 0.9));
                Line(part, root, tee.Branch.At, tee.Branch.Bore, tee.Branch.Bore, oneWay: false);
                if (byPart[part.Id].Count > 0)
                    Tie(Nearest(byPart[part.Id], tee.WorkPoint), Nearest(byPart[part.Id], root), oneWay: false);
                break;
            case Valve { Kind: ValveKind.Check } valve when route.Runs[valve.Run].Run.FlowsAlong is { } along:
                Line(part, along ? valve.In.At : valve.Out.At, along ? valve.Out.At : valve.In.At, part.Inside, part.Inside, oneWay: true, step: double.PositiveInfinity);
                break;
            case Cap cap:
                Line(part, cap.Rim.At, cap.WorkPoint, part.Inside, part.Inside, oneWay: false);
                break;
            case Component { Ports: [var a, var b, ..] }:
                Line(part, a.At, b.At, a.Bore > 0 ? a.Bore : part.Inside, b.Bore > 0 ? b.Bore : part.Inside, oneWay: false);
                break;
            default:
                break;
        }
    }

    /// <summary>A straight stretch; its first place is the last one of the same part where they are one.</summary>
    private void Line(Part part, Point from, Point to, double boreFrom, double boreTo, bool oneWay, double step = Step)
    {
        var length = from.To(to);
        if (length < Tolerance.Noise)
            return;
        var steps = Math.Max(1, (int)Math.Ceiling(length / step));
        var along = (to - from).Unit;
        var last = byPart[part.Id].Find(n => n.At.To(from) < 0.01) ?? Add(part, from, along, boreFrom, null, oneWay);
        for (var i = 1; i <= steps; i++)
        {
            var share = (double)i / steps;
            last = Add(part, from.Toward(to, share), along, boreFrom + ((boreTo - boreFrom) * share), last, oneWay);
        }
    }

    /// <summary>A place, tied to the one before it.</summary>
    private Node Add(Part part, Point at, Vector along, double bore, Node? before, bool oneWay)
    {
        var radius = bore / 2;
        var upright = Math.Sqrt(Math.Max(0, 1 - (along.Z * along.Z)));
        var node = new Node(nodes.Count, part, at, at.Z + (radius * upright), at.Z - (radius * upright), Math.PI * radius * radius);
        nodes.Add(node);
        byPart[part.Id].Add(node);
        if (before is not null)
        {
            Tie(before, node, oneWay);
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

        // Water goes to the opening, so the way is walked against it.
        var into = air ? null : Into();
        while (queue.TryDequeue(out var index, out var reached))
        {
            if (reached > level[index])
                continue;
            foreach (var other in air ? (IEnumerable<int>)nodes[index].Next : into![index])
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
