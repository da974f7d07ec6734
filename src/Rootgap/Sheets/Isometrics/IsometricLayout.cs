using System.Runtime.CompilerServices;
using Rootgap.Fabricating;
using Rootgap.Measure;

namespace Rootgap.Sheets;

/// <summary>Lays a line on paper so that it can be read: directions true, short legs lengthened and long ones shortened, loops closed, nothing on top of anything where that can be avoided.</summary>
internal sealed class IsometricLayout
{
    /// <summary>Parts of the line that don't touch in space keep this far apart on paper, mm, where they can.</summary>
    private const double Clear = 17;

    /// <summary>A view is turned only for more than this: less than one crossing.</summary>
    private const double Fair = 50;

    /// <summary>What a leg costs that is e times as long, or as short, as it wants to be.</summary>
    private const double Strain = 5;

    private readonly PaperLoops loops;

    /// <summary>Lengths of the legs before the sketch was brought to the size of its room.</summary>
    private double[] lengths = [];

    /// <summary>Most trials of the search.</summary>
    private readonly int mostTrials;

    private IsometricLayout(DrawnLine line, IsometricView view, int mostTrials)
    {
        (Line, View, this.mostTrials) = (line, view, mostTrials);
        Legs = [.. line.Legs.Select(l => new LegOnPaper(l, view))];
        loops = new PaperLoops(line, Legs);
    }

    public DrawnLine Line { get; }
    public IsometricView View { get; }
    public IReadOnlyList<LegOnPaper> Legs { get; }

    /// <summary>Size of the symbols, 1 where all have the room they want.</summary>
    public double SymbolScale { get; private set; } = 1;

    /// <summary>Places in the sketch's own space of each leg's first end: which of two legs is in front.</summary>
    public IReadOnlyList<Vector> Space { get; private set; } = [];

    /// <summary>Pairs of points that are one in space but could not be brought together on paper: the drawing does not close.</summary>
    public IReadOnlyList<(Spot A, Spot B)> Gaps { get; private set; } = [];

    /// <summary>The line within a room of paper; the smaller the <see cref="SymbolScale"/>, the less it fits.</summary>
    /// <param name="largest">How much larger than it need be the line may be drawn where there is room.</param>
    /// <param name="before">A picture from which the view and the lengths are taken where it has the same legs; null for none.</param>
    public static IsometricLayout Of(DrawnLine line, Box room, Effort effort, double largest = 2, IsometricLayout? before = null)
    {
        if (before?.With(line) is var (kept, same))
        {
            kept.Settle(same, room, largest);
            return kept;
        }

        var (usual, lengths) = effort.OneView ? Seen(line, OfDrawing(line.Fabrication), room, effort) : Best(line, room, effort);
        usual.Settle(lengths, room, largest);
        return usual;
    }

    private static readonly ConditionalWeakTable<Fabrication, IsometricLayout> Whole = [];

    /// <summary>One view and one north a drawing: as the whole line is seen best on a sheet. Asked for by every sheet of it, and worked out once.</summary>
    public static IsometricView OfDrawing(Fabrication f) => Whole.GetValue(f, f => Best(DrawnLine.Of(f, DrawnLine.Everything(f)), new(0, 0, 220, 165), Sketched).Layout).View;

    private static readonly Effort Sketched = new(Effort.Full.Trials, 0);

    private static (IsometricLayout Layout, double[] Lengths) Seen(DrawnLine line, IsometricView view, Box room, Effort effort)
    {
        var (layout, lengths, _) = Laid(line, view, room, effort, search: true);
        return (layout, lengths);
    }

    private static (IsometricLayout Layout, double[] Lengths) Best(DrawnLine line, Box room, Effort effort)
    {
        var (usual, lengths, cost) = Laid(line, IsometricView.All[0], room, effort, search: true);
        if (cost > Fair)
        {
            // The usual view stays unless another is clearly better. Where a skew leg falls on an axis in it, one direction may be stretched.
            var others = IsometricView.All.Skip(1);
            if (usual.SkewOnAxis() > 0)
                others = others.Concat(IsometricView.All.SelectMany(v => v.Stretched()));
            var other = others.Select(v => Laid(line, v, room, effort, search: false)).MinBy(l => l.Cost);
            var searched = other.Layout.Search(other.Lengths, room);
            if (other.Layout.Cost(searched, room) + other.Layout.FoldsBack() + Fair < cost)
                (usual, lengths) = (other.Layout, searched);
        }

        return (usual, lengths);
    }

    /// <summary>Another line with the same legs between the same nodes, as long on paper as here; null where it has others, or one that needs more room in a loop.</summary>
    private (IsometricLayout Layout, double[] Lengths)? With(DrawnLine line)
    {
        if (line.Legs.Count != Legs.Count)
            return null;
        var layout = new IsometricLayout(line, View, mostTrials);
        var x = (double[])lengths.Clone();
        for (var i = 0; i < x.Length; i++)
        {
            var (one, other) = (Legs[i], layout.Legs[i]);
            if (one.Leg.StartNode != other.Leg.StartNode || one.Leg.EndNode != other.Leg.EndNode || one.Unit.To(other.Unit) > 1e-6)
                return null;
            if (x[i] >= other.Least)
                continue;
            if (layout.loops.Holds(i))
                return null;
            x[i] = other.Least;
        }

        return (layout, x);
    }

    private static (IsometricLayout Layout, double[] Lengths, double Cost) Laid(DrawnLine line, IsometricView view, Box room, Effort effort, bool search)
    {
        var layout = new IsometricLayout(line, view, effort.Trials);
        var x = layout.loops.Close([.. layout.Legs.Select(l => l.Wanted)], -1)!;
        if (search)
            x = layout.Search(x, room);
        return (layout, x, layout.Cost(x, room) + layout.FoldsBack());
    }

    /// <summary>Stretches and shortens legs while that brings parts of the line away from each other.</summary>
    private double[] Search(double[] x, Box room)
    {
        var cost = Cost(x, room);
        var trials = 0;
        for (var pass = 0; pass < 5 && cost > 1 && trials < mostTrials; pass++)
        {
            var before = cost;
            for (var i = 0; i < x.Length && trials < mostTrials; i++)
            {
                foreach (var factor in new[] { 1.35, 1.8, 2.6, 0.7, 0.5 })
                {
                    var length = Math.Max(Legs[i].Least, x[i] * factor);
                    if (Math.Abs(length - x[i]) < 1)
                        continue;
                    trials++;
                    var y = (double[])x.Clone();
                    y[i] = length;
                    if (loops.Holds(i))
                        y = loops.Close(y, i);
                    if (y is null)
                        continue;
                    var c = Cost(y, room);
                    if (c < cost - 0.01)
                        (cost, x) = (c, y);
                }
            }

            if (before - cost < 0.5)
                break;
        }

        return x;
    }

    /// <summary>What is wrong with lengths: near misses, crossings, legs far from their wished length, and what does not fit the room.</summary>
    private double Cost(double[] x, Box room)
    {
        var nodes = loops.Place(x);
        var n = Legs.Count;
        Span<Spot> from = stackalloc Spot[n], to = stackalloc Spot[n];
        var (left, top, right, bottom) = (double.MaxValue, double.MaxValue, double.MinValue, double.MinValue);
        var cost = 0.0;
        for (var i = 0; i < n; i++)
        {
            var leg = Legs[i];
            from[i] = nodes[leg.Leg.StartNode].On;
            to[i] = from[i].Moved(leg.Unit.X * x[i], leg.Unit.Y * x[i]);
            (left, right) = (Math.Min(left, Math.Min(from[i].X, to[i].X)), Math.Max(right, Math.Max(from[i].X, to[i].X)));
            (top, bottom) = (Math.Min(top, Math.Min(from[i].Y, to[i].Y)), Math.Max(bottom, Math.Max(from[i].Y, to[i].Y)));
            var strain = Math.Log(x[i] / leg.Wanted);
            cost += Strain * strain * strain;
        }

        for (var i = 0; i < n; i++)
        {
            var a = Legs[i].Leg;
            for (var j = i + 1; j < n; j++)
            {
                var b = Legs[j].Leg;
                if (a.StartNode == b.StartNode || a.StartNode == b.EndNode || a.EndNode == b.StartNode || a.EndNode == b.EndNode || loops.GroupOf(a) != loops.GroupOf(b))
                    continue;
                cost += Nearness(from[i], to[i], from[j], to[j]);
            }
        }

        var fit = Math.Min(room.Width / Math.Max(1, right - left), room.Height / Math.Max(1, bottom - top));
        return fit < 1 ? cost + (((1 / fit) - 1) * 60) : cost;
    }

    private static double Nearness(Spot a, Spot b, Spot c, Spot d)
    {
        if (Math.Max(a.X, b.X) + Clear < Math.Min(c.X, d.X) || Math.Max(c.X, d.X) + Clear < Math.Min(a.X, b.X)
            || Math.Max(a.Y, b.Y) + Clear < Math.Min(c.Y, d.Y) || Math.Max(c.Y, d.Y) + Clear < Math.Min(a.Y, b.Y))
            return 0;
        if (Strokes.Crossing(a, b, c, d) is not null)
            return 100;
        var distance = Strokes.Distance(a, b, c, d);
        if (distance >= Clear)
            return 0;
        var near = (Clear - distance) / Clear;
        var cost = near * near * 6;
        if (distance < 5)
            cost += 50 * (5 - distance) / 5;
        return cost;
    }

    /// <summary>How many skew legs look straight: within five degrees of an axis on paper.</summary>
    private int SkewOnAxis() => Legs.Count(leg => leg.Leg.Direction.Length > 0 && !IsAxis(leg.Leg.Direction) && new[] { Vector.East, Vector.North, Vector.Up }.Any(a => Math.Abs(Sine(View.Way(a), leg.Unit)) < FiveDegrees));

    private static readonly double FiveDegrees = Math.Sin(5 * Math.PI / 180);

    /// <summary>What a skew leg that looks straight costs (more than <see cref="Fair"/>: another view is looked for), and a view by the whole of its stretch or with north turned: a little stretch is better.</summary>
    private const double LooksStraight = 70, ByStretch = 12, NorthTurned = 6;

    /// <summary>Legs that lie on their neighbour on paper, though not in space: only another view helps. Also legs that the view makes too short, and skew legs that look straight.</summary>
    private double FoldsBack()
    {
        var cost = (LooksStraight * SkewOnAxis()) + (ByStretch * View.Stretch) + (View.Quarter == 0 ? 0 : NorthTurned);
        foreach (var leg in Legs)
        {
            if (leg.Share < 0.5)
                cost += 500 * (0.5 - leg.Share);
        }

        for (var i = 0; i < Legs.Count; i++)
        {
            for (var j = i + 1; j < Legs.Count; j++)
            {
                var (a, b) = (Legs[i], Legs[j]);
                var (p, q) = (a.Unit, b.Unit);
                var isFold = (a.Leg.EndNode == b.Leg.StartNode && Dot(p, q) < -0.98) || ((a.Leg.StartNode == b.Leg.StartNode || a.Leg.EndNode == b.Leg.EndNode) && Dot(p, q) > 0.98);
                if (isFold)
                    cost += 150;
            }
        }

        return cost;
    }

    private static bool IsAxis(Vector v) => Math.Max(Math.Abs(v.X), Math.Max(Math.Abs(v.Y), Math.Abs(v.Z))) > 0.99;

    private static double Dot(Spot a, Spot b) => (a.X * b.X) + (a.Y * b.Y);

    private static double Sine(Spot a, Spot b) => (a.X * b.Y) - (a.Y * b.X);

    /// <summary>Brings the sketch into the room: larger or smaller as a whole, which changes no direction and no crossing.</summary>
    private void Settle(double[] x, Box room, double largest)
    {
        lengths = x;
        var nodes = loops.Place(x);
        var (left, top, right, bottom) = Bounds(x, nodes);
        var fit = Math.Min(room.Width / Math.Max(1, right - left), room.Height / Math.Max(1, bottom - top));
        var scale = Math.Min(fit, largest);
        SymbolScale = Math.Min(1, scale);
        var (dx, dy) = (room.Centre.X - (scale * (left + right) / 2), room.Centre.Y - (scale * (top + bottom) / 2));
        var space = new Vector[Legs.Count];
        for (var i = 0; i < Legs.Count; i++)
        {
            var leg = Legs[i];
            var node = nodes[leg.Leg.StartNode];
            leg.Length = x[i] * scale;
            leg.Start = new((node.On.X * scale) + dx, (node.On.Y * scale) + dy);
            space[i] = node.Space * scale;
        }

        Space = space;
        var gaps = new List<(Spot, Spot)>();
        foreach (var leg in Legs)
        {
            var node = nodes[leg.Leg.EndNode];
            var on = new Spot((node.On.X * scale) + dx, (node.On.Y * scale) + dy);
            if (on.To(leg.End) > 0.3)
                gaps.Add((leg.End, on));
        }

        Gaps = gaps;
    }

    private (double Left, double Top, double Right, double Bottom) Bounds(double[] x, (Spot On, Vector Space)[] nodes)
    {
        var (left, top, right, bottom) = (double.MaxValue, double.MaxValue, double.MinValue, double.MinValue);
        for (var i = 0; i < Legs.Count; i++)
        {
            var a = nodes[Legs[i].Leg.StartNode].On;
            foreach (var p in new[] { a, a.Moved(Legs[i].Unit.X * x[i], Legs[i].Unit.Y * x[i]) })
                (left, top, right, bottom) = (Math.Min(left, p.X), Math.Min(top, p.Y), Math.Max(right, p.X), Math.Max(bottom, p.Y));
        }

        return (left, top, right, bottom);
    }
}
