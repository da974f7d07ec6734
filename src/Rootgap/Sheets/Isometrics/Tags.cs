namespace Rootgap.Sheets;

/// <summary>What is drawn round a tag, so that one kind of number is never taken for another.</summary>
internal enum Frame
{
    /// <summary>Words without a frame.</summary>
    None,

    /// <summary>Items of the material list.</summary>
    Circle,

    /// <summary>Joints: a box with round ends.</summary>
    Stadium,

    /// <summary>Spools.</summary>
    Rectangle,
}

/// <summary>One framed word or number.</summary>
internal readonly record struct Tag(string Text, Frame Frame, bool Bold = false, Ink Ink = default)
{
    private const double Letter = 2.5;

    public TextStyle Style => new(Frame == Frame.Rectangle ? 3 : Letter, Bold, Ink);

    public double Width => Style.Width(Text) + Frame switch { Frame.Circle => 1.9, Frame.Stadium => 3, Frame.Rectangle => 2.6, _ => 0.4 } is var w && Frame == Frame.Circle ? Math.Max(5.2, w) : w;

    public double Height => Frame switch { Frame.None => Letter + 1, Frame.Circle => Width, Frame.Rectangle => 5.2, _ => 4.4 };

    public void Draw(Canvas canvas, Spot left)
    {
        var line = new LineStyle(Frame == Frame.Rectangle ? 0.5 : 0.3, Dash.Solid, Ink);
        var (w, h) = (Width, Height);
        switch (Frame)
        {
            case Frame.Circle:
                canvas.Circle(left.Moved(w / 2, 0), w / 2, line);
                break;
            case Frame.Stadium:
                canvas.Stroke(Shape.From(left.Moved(h / 2, -h / 2)).LineTo(left.Moved(w - (h / 2), -h / 2)).ArcTo(left.Moved(w - (h / 2), 0), h / 2, -Math.PI / 2, Math.PI)
                    .LineTo(left.Moved(h / 2, h / 2)).ArcTo(left.Moved(h / 2, 0), h / 2, Math.PI / 2, Math.PI).Close(), line);
                break;
            case Frame.Rectangle:
                canvas.Rectangle(new(left.X, left.Y - (h / 2), w, h), line);
                break;
        }

        canvas.Text(Text, left.Moved(w / 2, Style.Height / 2), Style, Anchor.Middle);
    }
}

/// <summary>Tags in rows, one below the other, that are set as one label with one leader.</summary>
internal sealed class TagBlock
{
    private const double Gap = 0.8, Below = 0.3;

    private readonly IReadOnlyList<IReadOnlyList<Tag>> rows;

    public TagBlock(params IReadOnlyList<IReadOnlyList<Tag>> rows)
    {
        this.rows = rows;
        Width = rows.Max(r => r.Sum(t => t.Width) + ((r.Count - 1) * Gap));
        Height = rows.Sum(r => r.Max(t => t.Height)) + ((rows.Count - 1) * Below);
    }

    public double Width { get; }
    public double Height { get; }

    /// <summary>Places round the anchors, near ones first; <paramref name="clear"/> is how far the leader stays off an anchor's middle.</summary>
    public Places Round(IReadOnlyList<Spot> anchors, double clear) => new RoundAnchors(Width, Height, [.. anchors], clear);

    public void Draw(Canvas canvas, Candidate at, bool arrow)
    {
        foreach (var (a, b) in at.Lines)
        {
            canvas.Line(a, b, LineStyle.Thin);
            if (arrow && a.To(b) > 2.5)
                canvas.Arrowhead(a, b.AngleTo(a), 1.8);
        }

        Draw(canvas, at.Words.Centre);
    }

    public void Draw(Canvas canvas, Spot centre)
    {
        var y = centre.Y - (Height / 2);
        foreach (var row in rows)
        {
            var height = row.Max(t => t.Height);
            var x = centre.X - (Width / 2);
            foreach (var tag in row)
            {
                tag.Draw(canvas, new(x, y + (height / 2)));
                x += tag.Width + Gap;
            }

            y += height + Below;
        }
    }
}

/// <summary>Places round what a label means, at a leader: rings of growing radius, sixteen places on each.</summary>
internal sealed class RoundAnchors(double width, double height, Spot[] anchors, double clear) : Places
{
    private static readonly double[] Radii = [3, 6, 9.5, 14, 19, 25, 32, 40, 50, 62, 76];

    private static readonly Spot[] Ways = [.. Enumerable.Range(0, 16).Select(i => new Spot(Math.Cos(i * Math.PI / 8), Math.Sin(i * Math.PI / 8)))];

    public override int Count => Radii.Length * anchors.Length * Ways.Length;

    public override double Cost(int place)
    {
        var (ring, way) = (place / Ways.Length, place % Ways.Length);
        return (Radii[ring / anchors.Length] * 0.5) + (ring % anchors.Length * 0.4) + (way % 2 * 0.1);
    }

    public override Slab Words(int place)
    {
        var (ring, way) = (place / Ways.Length, Ways[place % Ways.Length]);
        var edge = Math.Min(width / 2 / Math.Max(1e-6, Math.Abs(way.X)), height / 2 / Math.Max(1e-6, Math.Abs(way.Y)));
        var reach = clear + Radii[ring / anchors.Length] + edge;
        var anchor = anchors[ring % anchors.Length];
        return new(new(anchor.X + (way.X * reach), anchor.Y + (way.Y * reach)), width / 2, height / 2, 0);
    }

    public override int Lines(int place, Span<(Spot A, Spot B)> lines)
    {
        var (ring, way) = (place / Ways.Length, Ways[place % Ways.Length]);
        var anchor = anchors[ring % anchors.Length];
        var reach = clear + Radii[ring / anchors.Length];
        lines[0] = (anchor.Moved(way.X * clear, way.Y * clear), anchor.Moved(way.X * reach, way.Y * reach));
        return 1;
    }
}
