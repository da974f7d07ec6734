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

    private static readonly double[] Radii = [3, 6, 9.5, 14, 19, 25, 32, 40, 50, 62, 76];

    private static readonly (double X, double Y)[] Ways =
        [.. Enumerable.Range(0, 16).Select(i => (Math.Cos(i * Math.PI / 8), Math.Sin(i * Math.PI / 8)))];

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
    public IEnumerable<Candidate> Round(IReadOnlyList<Spot> anchors, double clear)
    {
        foreach (var (radius, r) in Radii.Select((x, i) => (x, i)))
        {
            for (var a = 0; a < anchors.Count; a++)
            {
                for (var w = 0; w < Ways.Length; w++)
                {
                    var (x, y) = Ways[w];
                    var edge = Math.Min(Width / 2 / Math.Max(1e-6, Math.Abs(x)), Height / 2 / Math.Max(1e-6, Math.Abs(y)));
                    var anchor = anchors[a];
                    var reach = clear + radius;
                    var centre = anchor.Moved(x * (reach + edge), y * (reach + edge));
                    var cost = (radius * 0.5) + (a * 0.4) + (w % 2 * 0.1);
                    yield return new(cost, [new(centre, Width / 2, Height / 2, 0)],
                        [(anchor.Moved(x * clear, y * clear), anchor.Moved(x * reach, y * reach))], (r * 1000) + w);
                }
            }
        }
    }

    public void Draw(Canvas canvas, Candidate at, bool arrow)
    {
        foreach (var (a, b) in at.Lines)
        {
            canvas.Line(a, b, LineStyle.Thin);
            if (arrow && a.To(b) > 2.5)
                canvas.Arrowhead(a, b.AngleTo(a), 1.8);
        }

        Draw(canvas, at.Words[0].Centre);
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
