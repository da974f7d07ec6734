using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Routes;

namespace Rootgap.Sheets;

/// <summary>Parts a drawing that is too full for one sheet: at bolted joints, field and final-fit welds where it can, at shop welds where it must.</summary>
internal static class SheetSplit
{
    /// <summary>What a cut at a shop weld or a branch weighs against sheets of unequal size (share of all).</summary>
    private const double AtShopWeld = 0.3, AtBranch = 0.15, Fewest = 45;

    /// <summary>Groups of ids, each at most about <paramref name="most"/> labels, in line order.</summary>
    /// <param name="isTooFull">What turns out too full on paper is cut in two once more.</param>
    public static List<HashSet<string>> Of(Fabrication f, double most, Func<HashSet<string>, bool> isTooFull)
    {
        var graph = new Graph(f);
        var groups = new List<List<int>>();
        var small = new List<int>();
        foreach (var connected in graph.Connected())
        {
            // What hangs together by nothing shares a sheet while there is room.
            if (graph.Weight(small) + graph.Weight(connected) <= most)
            {
                small.AddRange(connected);
                continue;
            }

            graph.Part(connected, most, groups);
        }

        if (small.Count > 0)
            groups.Add(small);
        for (var round = 0; round < 2; round++)
        {
            var before = groups;
            groups = [];
            foreach (var group in before)
            {
                // A few labels on a sheet of their own do not make it clearer.
                if (graph.Weight(group) > Fewest && isTooFull([.. group.Select(graph.IdOf)]))
                    graph.Part(group, Math.Max(Fewest, graph.Weight(group) * 0.7), groups);
                else
                    groups.Add(group);
            }

            if (groups.Count == before.Count)
                break;
        }

        return [.. groups.OrderBy(g => g.Min()).Select(g => g.Select(graph.IdOf).ToHashSet(StringComparer.Ordinal))];
    }

    private sealed class Graph
    {
        private readonly List<string> ids = [];
        private readonly List<double> weights = [];
        private readonly List<(int A, int B, double Dear)> edges = [];

        public Graph(Fabrication f)
        {
            var number = new Dictionary<string, int>(StringComparer.Ordinal);
            // In line order: components and pipes by run and leg.
            var parts = f.Route.Components.Select(c => (c.Id, c.Run, At: c.Leg + 0.5, Weight: 1.2)).Concat(f.Route.Pipes.Select(p => (p.Id, p.Run, At: (double)p.FirstLeg, Weight: 2.0 + p.LastLeg - p.FirstLeg)));
            foreach (var part in parts.OrderBy(p => p.Run).ThenBy(p => p.At))
            {
                number[part.Id] = ids.Count;
                ids.Add(part.Id);
                weights.Add(part.Weight);
            }

            foreach (var joint in f.Route.Joints)
            {
                foreach (var id in joint.Between)
                    weights[number[id]] += 1.0 / joint.Between.Count;
                if (joint.Between.Count > 1)
                    edges.Add((number[joint.Between[0]], number[joint.Between[1]], joint.Place != WeldPlace.Shop || joint.Kind == JointKind.Bolted ? 0 : joint.Kind == JointKind.Branch ? AtBranch : AtShopWeld));
            }

            // A gasket stays with the flange before it, or after it at the start of a run.
            Component? before = null;
            foreach (var c in f.Route.Components)
            {
                if (c.LiesInJoint)
                {
                    var other = before is { LiesInJoint: false } && (before.Run, before.Leg) == (c.Run, c.Leg)
                        ? before
                        : f.Route.Components.FirstOrDefault(o => (o.Run, o.Leg) == (c.Run, c.Leg) && !o.LiesInJoint);
                    if (other is not null)
                        edges.Add((number[c.Id], number[other.Id], 10));
                }

                before = c;
            }
        }

        public string IdOf(int i) => ids[i];

        public double Weight(List<int> part) => part.Sum(i => weights[i]);

        public List<List<int>> Connected()
        {
            var all = Enumerable.Range(0, ids.Count).ToList();
            var found = new List<List<int>>();
            var left = new SortedSet<int>(all);
            while (left.Count > 0)
            {
                var part = Reach(left.Min, all.ToHashSet(), out _);
                found.Add(part);
                left.ExceptWith(part);
            }

            return found;
        }

        /// <summary>Cuts a connected part in two where it is best, until each is small enough.</summary>
        public void Part(List<int> part, double most, List<List<int>> into)
        {
            var total = Weight(part);
            if (total <= most)
            {
                into.Add(part);
                return;
            }

            var inside = part.ToHashSet();
            Reach(part[0], inside, out var tree);
            (List<int> A, List<int> B)? best = null;
            var least = double.MaxValue;
            foreach (var edge in tree)
            {
                var side = TreeSide(edge, tree, inside);
                var share = Weight(side) / total;
                var cost = Math.Abs(share - 0.5) + edges[edge].Dear + (share is < 0.12 or > 0.88 ? 5 : 0);
                if (cost < least)
                    (least, best) = (cost, (side, part.Where(i => !side.Contains(i)).ToList()));
            }

            if (best is not { } two || two.A.Count == 0 || two.B.Count == 0)
            {
                into.Add(part);
                return;
            }

            Part(two.A, most, into);
            Part(two.B, most, into);
        }

        /// <summary>What is left on one side when an edge of the tree is cut.</summary>
        private List<int> TreeSide(int cut, List<int> tree, HashSet<int> inside)
        {
            var seen = new HashSet<int> { edges[cut].B };
            var next = tree.Where(e => e != cut).Select(e => edges[e]).SelectMany(e => new[] { (From: e.A, To: e.B), (From: e.B, To: e.A) }).ToLookup(e => e.From, e => e.To);
            var queue = new Queue<int>(seen);
            while (queue.TryDequeue(out var i))
            {
                foreach (var to in next[i])
                {
                    if (inside.Contains(to) && seen.Add(to))
                        queue.Enqueue(to);
                }
            }

            return [.. seen.Order()];
        }

        private List<int> Reach(int start, HashSet<int> inside, out List<int> tree)
        {
            tree = [];
            var seen = new HashSet<int> { start };
            var queue = new Queue<int>([start]);
            while (queue.TryDequeue(out var i))
            {
                for (var e = 0; e < edges.Count; e++)
                {
                    if (edges[e].A != i && edges[e].B != i)
                        continue;
                    var to = edges[e].A == i ? edges[e].B : edges[e].A;
                    if (!inside.Contains(to) || !seen.Add(to))
                        continue;
                    tree.Add(e);
                    queue.Enqueue(to);
                }
            }

            return [.. seen.Order()];
        }
    }
}
