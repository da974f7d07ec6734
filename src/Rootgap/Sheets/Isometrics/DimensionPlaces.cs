using Rootgap.Measure;

namespace Rootgap.Sheets;

/// <summary>Places for a dimension: its line parallel to the leg, moved along one of the other axes, so that it lies in a plane of the isometric.</summary>
internal sealed class DimensionPlaces : Places
{
    private const double Head = 2.4, Over = 1.2, Rise = 0.8;

    private static readonly double[] Distances = [7, 10.5, 14, 18, 23, 29];

    public static readonly TextStyle Style = TextStyle.Small;

    private readonly Spot a, b, middle;
    private readonly double offA, offB, along, length, width, shelf;
    private readonly string text;
    private readonly IsometricView view;

    /// <summary>Words that are longer than the line stand beside it, on the line drawn on.</summary>
    private readonly bool isShort;

    /// <summary>Where on the line the words may stand: in its middle, nearer to its first end, nearer to its second.</summary>
    private readonly int firstSeat, seats;

    private readonly double slant;
    private readonly Spot onward, up;
    private readonly List<(Spot Way, double Sine, double Dear)> outs;

    /// <param name="offA">How far extension lines stay off the first end, mm: more where a symbol stands there.</param>
    public DimensionPlaces(Spot a, Spot b, double offA, double offB, string text, IsometricView view, Spot middle)
    {
        (this.a, this.b, this.offA, this.offB, this.text, this.view, this.middle) = (a, b, offA, offB, text, view, middle);
        (along, length, width) = (a.AngleTo(b), a.To(b), Style.Width(text));
        slant = Upright(along);
        (onward, up) = (new(Math.Cos(along), Math.Sin(along)), new(Math.Sin(slant), -Math.Cos(slant)));
        outs = Ways(onward.X, onward.Y);
        isShort = length < width + 2.6;
        shelf = length < (2 * Head) + 1 ? 4.5 : 0;
        (firstSeat, seats) = isShort ? (1, 2) : length < width + 8 ? (0, 1) : (0, 3);
    }

    /// <summary>The angle at which words along a line can be read from below or from the right.</summary>
    public static double Upright(double angle)
    {
        var turn = Math.IEEERemainder(angle, Math.PI);
        return turn >= (Math.PI / 2) - 1e-6 ? turn - Math.PI : turn;
    }

    /// <summary>Where no dimension line finds room, the figure stands at a leader: from where to where it goes is seen no longer, so nearly any line is better.</summary>
    public Places OrAtLeader() => new LeaderAfter(this, new TagBlock([[new Tag(text, Frame.None)]]).Round([a.Toward(b, 0.5), a.Toward(b, 0.3), a.Toward(b, 0.7)], 0.9), 150);

    public override int Count => Distances.Length * outs.Count * seats;

    public override double Cost(int place) => (place / (outs.Count * seats) * 1.6) + outs[place / seats % outs.Count].Dear + (firstSeat + (place % seats) == 0 ? 0 : 1.2) + (IsAcrossItsOwn(place) ? LabelPlacement.LineOverWords : 0);

    // Extension lines lean where they follow an axis, and may lean into the words.
    private bool IsAcrossItsOwn(int place)
    {
        Span<(Spot A, Spot B)> lines = stackalloc (Spot, Spot)[MostLines];
        var count = Lines(place, lines);
        var words = Words(place);
        for (var i = 1; i < count; i++)
        {
            if (words.Overlaps(Slab.Along(lines[i].A, lines[i].B, 0.2)))
                return true;
        }

        return false;
    }

    public override Slab Words(int place)
    {
        var (out1, seat) = Out(place);
        var shift = seat == 0 ? 0 : isShort ? (length / 2) + 2 + (width / 2) : (length - width - 2) / 2;
        if (seat == 1)
            shift = -shift;
        var centre = a.Moved(out1.X, out1.Y).Toward(b.Moved(out1.X, out1.Y), 0.5).Moved((onward.X * shift) + (up.X * (Rise + 1.25)), (onward.Y * shift) + (up.Y * (Rise + 1.25)));
        return new(centre, (width / 2) + 0.2, 1.3, slant);
    }

    public override int Lines(int place, Span<(Spot A, Spot B)> lines)
    {
        var (out1, seat) = Out(place);
        var (p, q) = (a.Moved(out1.X, out1.Y), b.Moved(out1.X, out1.Y));
        var beyond = isShort && seat > 0 ? 2 + width : shelf;
        var (back, on) = (seat == 1 ? beyond : shelf, seat == 2 ? beyond : shelf);
        var away = outs[place / seats % outs.Count].Way;
        lines[0] = (p.Moved(-onward.X * back, -onward.Y * back), q.Moved(onward.X * on, onward.Y * on));
        lines[1] = (a.Moved(away.X * offA, away.Y * offA), p.Moved(away.X * Over, away.Y * Over));
        lines[2] = (b.Moved(away.X * offB, away.Y * offB), q.Moved(away.X * Over, away.Y * Over));
        return 3;
    }

    public override bool AtLeader(int place) => false;

    /// <summary>From the leg to the dimension line, and where on it the words stand.</summary>
    private (Spot Out, int Seat) Out(int place)
    {
        var (away, sine, _) = outs[place / seats % outs.Count];
        var reach = Distances[place / (outs.Count * seats)] / sine;
        return (new(away.X * reach, away.Y * reach), firstSeat + (place % seats));
    }

    public void Draw(Canvas canvas, Candidate at)
    {
        if (at.AtLeader)
        {
            new TagBlock([[new Tag(text, Frame.None)]]).Draw(canvas, at, arrow: true);
            return;
        }

        foreach (var (from, to) in at.Lines)
            canvas.Line(from, to, LineStyle.Thin);
        var (p, q) = (Foot(at.Lines[1]), Foot(at.Lines[2]));
        var outside = length < (2 * Head) + 1;
        canvas.Arrowhead(p, outside ? along : along + Math.PI, Head).Arrowhead(q, outside ? along + Math.PI : along, Head);
        canvas.Text(text, at.Words.Centre.Polar(1.25, slant + (Math.PI / 2)), Style, Anchor.Middle, slant);

        // The extension line goes on over the dimension line: back from its tip to where the two meet.
        Spot Foot((Spot From, Spot Tip) extension) => extension.Tip.Polar(-Over, extension.From.AngleTo(extension.Tip));
    }

    private List<(Spot Way, double Sine, double Dear)> Ways(double ux, double uy)
    {
        var ways = new List<(Spot, double, double)>();
        var centre = a.Toward(b, 0.5);
        var (ox, oy) = (centre.X - middle.X, centre.Y - middle.Y);
        void Add(Spot way, double dear)
        {
            var size = default(Spot).To(way);
            var (x, y) = (way.X / size, way.Y / size);
            var sine = Math.Abs((ux * y) - (uy * x));
            if (sine < 0.45)
                return;
            // Outward is better: the middle of the sheet is full.
            var inward = (x * ox) + (y * oy) < 0 ? 1.5 : 0;
            ways.Add((new(x, y), sine, dear + inward));
        }

        foreach (var axis in new[] { Vector.Up, Vector.East, Vector.North })
        {
            var way = view.Way(axis);
            Add(way, 0);
            Add(new(-way.X, -way.Y), 0);
        }

        // Square to the leg on paper where neither axis is free; a skew leg has no plane of its own anyway.
        var square = ways.Count < 4 ? 1 : 7;
        Add(new(-uy, ux), square);
        Add(new(uy, -ux), square);

        return [.. ways.OrderBy(x => x.Item3)];
    }
}
