using Rootgap.Measure;

namespace Rootgap.Sheets;

/// <summary>How the legs hang together: places of all nodes from the lengths, and lengths that let every loop close.</summary>
internal sealed class PaperLoops
{
    private readonly IReadOnlyList<LegOnPaper> legs;
    private readonly int nodes;

    /// <summary>Legs in the order in which nodes are reached, and whether from their first end.</summary>
    private readonly List<(int Leg, bool Forward)> order = [];

    /// <summary>First node of each connected group, in order, and the group of each node.</summary>
    private readonly List<int> roots = [];

    private readonly int[] group;

    /// <summary>Three rows a loop: east, north, up.</summary>
    private readonly List<double[]> rows = [];

    private readonly bool[] inLoop;

    public PaperLoops(DrawnLine line, IReadOnlyList<LegOnPaper> legs)
    {
        (this.legs, nodes) = (legs, line.Nodes);
        group = new int[nodes];
        Array.Fill(group, -1);
        inLoop = new bool[legs.Count];
        var paths = new double[nodes][];
        var touching = legs.SelectMany((l, i) => new[] { (l.Leg.StartNode, i), (l.Leg.EndNode, i) }).ToLookup(x => x.Item1, x => x.i);
        var used = new bool[legs.Count];
        foreach (var first in legs)
        {
            var root = first.Leg.StartNode;
            if (group[root] >= 0)
                continue;
            group[root] = roots.Count;
            paths[root] = new double[legs.Count];
            var queue = new Queue<int>([root]);
            while (queue.TryDequeue(out var node))
            {
                foreach (var i in touching[node])
                {
                    if (used[i])
                        continue;
                    used[i] = true;
                    var leg = legs[i].Leg;
                    var forward = leg.StartNode == node;
                    var next = forward ? leg.EndNode : leg.StartNode;
                    var path = (double[])paths[node].Clone();
                    path[i] += forward ? 1 : -1;
                    if (group[next] < 0)
                    {
                        group[next] = roots.Count;
                        paths[next] = path;
                        order.Add((i, forward));
                        queue.Enqueue(next);
                    }
                    else
                    {
                        for (var k = 0; k < path.Length; k++)
                            path[k] -= paths[next][k];
                        Add(path);
                    }
                }
            }

            roots.Add(root);
        }
    }

    public bool Holds(int leg) => inLoop[leg];

    public int GroupOf(DrawnLeg leg) => group[leg.StartNode];

    private void Add(double[] coefficients)
    {
        double[] east = new double[legs.Count], north = new double[legs.Count], up = new double[legs.Count];
        for (var i = 0; i < coefficients.Length; i++)
        {
            inLoop[i] |= coefficients[i] != 0;
            var v = legs[i].Space * coefficients[i];
            (east[i], north[i], up[i]) = (v.X, v.Y, v.Z);
        }

        rows.AddRange([east, north, up]);
    }

    /// <summary>The lengths nearest to the given ones with which all loops close and no leg is too short.</summary>
    /// <param name="kept">Index of a leg that keeps its length; -1 for none.</param>
    /// <returns>Null where no lengths do with that leg kept.</returns>
    public double[]? Close(double[] wanted, int kept)
    {
        if (rows.Count == 0)
            return wanted;
        var x = (double[])wanted.Clone();
        var isFixed = new bool[x.Length];
        if (kept >= 0)
            isFixed[kept] = true;
        for (var round = 0; round < 40; round++)
        {
            Step(wanted, x, isFixed);
            var again = false;
            for (var i = 0; i < x.Length; i++)
            {
                if (!isFixed[i] && inLoop[i] && x[i] < legs[i].Least - 1e-9)
                {
                    (isFixed[i], x[i], again) = (true, legs[i].Least, true);
                }
            }

            if (!again)
                break;
        }

        return Residual(x) < 0.01 ? x : kept >= 0 ? null : AsInThePlant(wanted);
    }

    /// <summary>Lengths in the plant's own proportions close wherever the drawing does.</summary>
    private double[] AsInThePlant(double[] wanted)
    {
        var x = (double[])wanted.Clone();
        var scale = 0.0;
        for (var i = 0; i < x.Length; i++)
        {
            if (inLoop[i] && legs[i].Leg.Distance > 1)
                scale = Math.Max(scale, legs[i].Least / (legs[i].Leg.Distance * legs[i].Share));
        }

        for (var i = 0; i < x.Length; i++)
        {
            if (inLoop[i])
                x[i] = Math.Max(0.1, legs[i].Leg.Distance * legs[i].Share * scale);
        }

        return x;
    }

    private double Residual(double[] x) => rows.Count == 0 ? 0 : rows.Max(r => Math.Abs(r.Zip(x, (a, b) => a * b).Sum()));

    /// <summary>Least squares in shares of the wished lengths, under the loops, with some legs held.</summary>
    private void Step(double[] wanted, double[] x, bool[] isFixed)
    {
        var m = rows.Count;
        var a = new double[m, m + 1];
        for (var p = 0; p < m; p++)
        {
            for (var i = 0; i < x.Length; i++)
            {
                a[p, m] += rows[p][i] * (isFixed[i] ? x[i] : wanted[i]);
                if (isFixed[i] || rows[p][i] == 0)
                    continue;
                for (var q = 0; q < m; q++)
                    a[p, q] += rows[p][i] * wanted[i] * wanted[i] * rows[q][i];
            }
        }

        var lambda = Solve(a, m);
        for (var i = 0; i < x.Length; i++)
        {
            if (isFixed[i])
                continue;
            x[i] = wanted[i];
            for (var p = 0; p < m; p++)
                x[i] -= wanted[i] * wanted[i] * rows[p][i] * lambda[p];
        }
    }

    /// <summary>Gaussian elimination; rows that say nothing new get no multiplier.</summary>
    private static double[] Solve(double[,] a, int m)
    {
        var pivot = new int[m];
        Array.Fill(pivot, -1);
        var rank = 0;
        for (var column = 0; column < m && rank < m; column++)
        {
            var best = rank;
            for (var r = rank; r < m; r++)
            {
                if (Math.Abs(a[r, column]) > Math.Abs(a[best, column]))
                    best = r;
            }

            if (Math.Abs(a[best, column]) < 1e-6)
                continue;
            for (var c = 0; c <= m; c++)
                (a[rank, c], a[best, c]) = (a[best, c], a[rank, c]);
            for (var r = 0; r < m; r++)
            {
                if (r == rank || a[r, column] == 0)
                    continue;
                var factor = a[r, column] / a[rank, column];
                for (var c = column; c <= m; c++)
                    a[r, c] -= factor * a[rank, c];
            }

            pivot[column] = rank++;
        }

        var x = new double[m];
        for (var column = 0; column < m; column++)
        {
            if (pivot[column] >= 0)
                x[column] = a[pivot[column], m] / a[pivot[column], column];
        }

        return x;
    }

    /// <summary>Places of all nodes for these lengths: on paper, and in the sketch's own space. Groups that do not hang together stand side by side as they do in the plant.</summary>
    public (Spot On, Vector Space)[] Place(double[] x)
    {
        var at = new (Spot On, Vector Space)[nodes];
        foreach (var (i, forward) in order)
        {
            var leg = legs[i];
            var length = forward ? x[i] : -x[i];
            var (from, to) = forward ? (leg.Leg.StartNode, leg.Leg.EndNode) : (leg.Leg.EndNode, leg.Leg.StartNode);
            at[to] = (at[from].On.Moved(leg.Unit.X * length, leg.Unit.Y * length), at[from].Space + (leg.Space * length));
        }

        if (roots.Count > 1)
            SetApart(at, x);
        return at;
    }

    private void SetApart((Spot On, Vector Space)[] at, double[] x)
    {
        const double Apart = 30;
        var boxes = new Box[roots.Count];
        for (var g = 0; g < roots.Count; g++)
        {
            var own = legs.Select((l, i) => (l, i)).Where(p => GroupOf(p.l.Leg) == g).ToList();
            var spots = own.SelectMany(p => new[] { at[p.l.Leg.StartNode].On, at[p.l.Leg.StartNode].On.Moved(p.l.Unit.X * x[p.i], p.l.Unit.Y * x[p.i]) }).ToList();
            var (left, top) = (spots.Min(s => s.X), spots.Min(s => s.Y));
            boxes[g] = new(left, top, spots.Max(s => s.X) - left, spots.Max(s => s.Y) - top);
            if (g == 0)
                continue;
            // The way from the first group to this one, as in the plant.
            var way = own[0].l.ViewOf(own[0].l.Leg.Origin - legs[0].Leg.Origin);
            var length = default(Spot).To(way);
            var (ux, uy) = length > 1 ? (way.X / length, way.Y / length) : (1.0, 0.0);
            var step = 0.0;
            while (step < 5000 && Enumerable.Range(0, g).Any(o => Moved(boxes[g], ux * step, uy * step).Overlaps(boxes[o].Inset(-Apart))))
                step += 5;
            boxes[g] = Moved(boxes[g], ux * step, uy * step);
            for (var n = 0; n < at.Length; n++)
            {
                if (group[n] == g)
                    at[n] = (at[n].On.Moved(ux * step, uy * step), at[n].Space);
            }
        }
    }

    private static Box Moved(Box box, double dx, double dy) => box with { X = box.X + dx, Y = box.Y + dy };
}
