using System.Collections.Immutable;
using System.Globalization;

namespace Rootgap.Sheets;

/// <summary>A document that is filled from the top: headings, text, tables, figures and boxes to fill in, page after page under one title block. Millimetres.</summary>
public sealed class Flow
{
    private readonly Paper? _paper;
    private readonly TitleBlock? _block;
    private readonly Box _area;
    private readonly List<Page> _pages = [];
    private readonly List<Bookmark> _bookmarks = [];
    private readonly List<Piece> _held = []; // headings that wait for what they head
    private Canvas _canvas = new();
    private double _y;
    private bool _fresh = true; // nothing stands on the page yet

    public Flow(Paper paper, TitleBlock block)
    {
        (_paper, _block, _area) = (paper, block, block.Content(paper));
        _y = _area.Top;
        _bookmarks.Add(new(block.Title));
    }

    // A column without end, for parts that stay together.
    private Flow(double width)
    {
        _area = new(0, 0, width, double.PositiveInfinity);
    }

    /// <summary>Width of a line, mm.</summary>
    public double Width => _area.Width;

    /// <summary>Height that is left on this page, mm.</summary>
    public double Remaining => _area.Bottom - _y;

    /// <summary>All pages so far; the last one ends here.</summary>
    public IReadOnlyList<Page> Pages
    {
        get
        {
            Put(new(0, 0, (_, _) => { }));
            return _fresh && _pages.Count > 0 ? _pages : [.. _pages, ThisPage()];
        }
    }

    /// <summary>The pages as a document of their own.</summary>
    public IReadOnlyList<Scene> ToScenes()
    {
        var pages = Pages;
        return [.. pages.Select((page, i) => page.Numbered(i + 1, pages.Count))];
    }

    /// <summary>A column of a width as a figure, as high as it needs: for cards and parts side by side.</summary>
    public static Figure Column(double width, Action<Flow> fill)
    {
        var column = new Flow(width);
        fill(column);
        column.Release();
        return new(column._canvas.Marks, width, column._y);
    }

    /// <summary>A heading of level 1 (with a rule), 2 or 3; never left alone at the foot of a page. Levels 1 and 2 go into the outline below the sheet's title.</summary>
    public Flow Heading(string text, int level = 1)
    {
        var style = level switch { 1 => TextStyle.Heading, 2 => TextStyle.Strong with { Height = 4.2 }, _ => TextStyle.Strong };
        var lines = style.Wrap(text, Width);
        var height = Extent(style, lines.Count) + (level == 1 ? 2.5 : 0);
        _held.Add(new(height + 2.5, level == 1 ? 6 : 4.5, (canvas, at) =>
        {
            canvas.Lines(lines, at.X, at.Y, Width, style, Anchor.Start);
            if (level == 1)
                canvas.Line(at.X, at.Y + height, at.X + Width, at.Y + height, LineStyle.Medium);
        })
        { Bookmark = level <= 2 ? new(text, level + 1) : null });
        return this;
    }

    /// <summary>Text in lines as wide as the page; may run on over pages.</summary>
    public Flow Paragraph(string text, TextStyle? style = null, Anchor align = Anchor.Start)
    {
        style ??= TextStyle.Body;
        Lines(style.Wrap(text, Width), style, 0, align, null);
        return this;
    }

    /// <summary>Points of a list, each after a dash.</summary>
    public Flow Bullets(params IEnumerable<string> points) => Bullets(TextStyle.Body, points);

    /// <summary>The same in letters of another height.</summary>
    public Flow Bullets(TextStyle style, IEnumerable<string> points) => Points(style, points, _ => "–");

    /// <summary>Steps of a procedure, numbered from 1.</summary>
    public Flow Steps(params IEnumerable<string> steps) => Points(TextStyle.Body, steps, i => string.Create(CultureInfo.InvariantCulture, $"{i + 1}."));

    /// <summary>Things to tick off, each after an empty box.</summary>
    public Flow Ticks(params IEnumerable<string> things) => Ticks(TextStyle.Body, things);

    /// <summary>The same in letters of another height.</summary>
    public Flow Ticks(TextStyle style, IEnumerable<string> things)
    {
        foreach (var thing in things)
        {
            var side = style.Height * 1.25;
            Lines(style.Wrap(thing, Width - side - 3), style, side + 3, Anchor.Start, (canvas, at) =>
                canvas.Rectangle(new(at.X, at.Y - ((side - style.Height) / 2), side, side), LineStyle.Medium));
        }
        return this;
    }

    /// <summary>Labelled boxes side by side: values in bold, or room to write where there is none.</summary>
    public Flow Fields(int columns, params IReadOnlyList<Field> fields) => Fields(8, columns, fields);

    /// <summary>The same, lower: room for a name and no more.</summary>
    public Flow LowFields(int columns, params IReadOnlyList<Field> fields) => Fields(5.5, columns, fields);

    private Flow Fields(double roomToWrite, int columns, IReadOnlyList<Field> fields)
    {
        var style = TextStyle.Strong;
        for (var first = 0; first < fields.Count; first += columns)
        {
            var row = fields.Skip(first).Take(columns).ToList();
            var boxes = new Box(0, 0, Width, 0).Columns(0, [.. Enumerable.Repeat(1.0, columns)]);
            var height = row.Select((f, i) => FieldBox.Height(f, boxes[i].Width, style, roomToWrite)).Max();
            Put(new(height, first == 0 ? 3 : 0, (canvas, at) =>
            {
                for (var i = 0; i < row.Count; i++)
                {
                    var box = new Box(at.X + boxes[i].X, at.Y, boxes[i].Width, height);
                    FieldBox.Draw(canvas, box, row[i], style);
                    canvas.Rectangle(box, LineStyle.Medium);
                }
            }));
        }
        return this;
    }

    /// <summary>An empty ruled box with a label, to write or sketch in.</summary>
    public Flow BlankBox(string label, double height) => Put(new(height, 3, (canvas, at) =>
    {
        var box = new Box(at.X, at.Y, Width, height);
        canvas.Rectangle(box, LineStyle.Medium).TextIn(box.Inset(1.5), label, TextStyle.Small);
    }));

    /// <summary>Words that keep someone from harm, or a job from being spoilt: in a strong frame with a sign.</summary>
    public Flow Warning(string text, string heading = "Warning")
    {
        const double pad = 3, sign = 12;
        var (bold, body) = (new TextStyle(4.2, Bold: true, Ink.Accent), TextStyle.Body);
        var left = pad + sign + pad;
        var lines = body.Wrap(text, Width - left - pad);
        var height = Math.Max(sign + (2 * pad), (2 * pad) + bold.Pitch + Extent(body, lines.Count));
        if (!double.IsInfinity(_area.Height) && height > _area.Height)
            return Heading(heading, 3).Paragraph(text);
        return Put(new(height, 4, (canvas, at) => canvas.Group(null, "warning", g =>
        {
            g.Rectangle(new(at.X + 0.5, at.Y, Width - 1, height), new LineStyle(1, Dash.Solid, Ink.Accent));
            DrawSign(g, new(at.X + pad, at.Y + pad, sign, sign * 0.9));
            g.Text(heading, at.X + left, at.Y + pad + bold.Height, bold);
            g.Lines(lines, at.X + left, at.Y + pad + bold.Pitch, Width, body, Anchor.Start);
        })));
    }

    /// <summary>A table, over as many pages as it needs.</summary>
    public Flow Table(Table table)
    {
        var layout = new TableLayout(table, Width);
        var part = default(Spot?); // where the part on this page begins
        var (rows, breakBefore) = layout.Rows(Room(withHeld: true), _area.Height);
        SetRow? group = null;
        for (var r = 0; r < rows.Count; r++)
        {
            var row = rows[r];
            var line = 0;
            if (part is not null && (r == breakBefore || (row.Source.Group && r + 1 < rows.Count && !Fits(row.Height + rows[r + 1].Height, false))))
            {
                ClosePart();
                BreakPage();
            }

            while (line < row.Lines)
            {
                var again = part is null && group is not null && !row.Source.Group ? layout.Continued(group) : null;
                var heading = part is null ? layout.HeadingHeight + (again?.Height ?? 0) : 0;
                var height = layout.HeightOf(row, line, row.Lines);
                var upTo = row.Lines;
                if (!Fits(heading + height, part is null))
                {
                    // A row goes to the next page whole, unless it would not fit there either.
                    var fits = line + layout.LinesIn(Room(part is null) - heading);
                    var top = part is null && _fresh;
                    var tear = (top || height > _area.Height - layout.HeadingHeight) && line + 1 < row.Lines;
                    if (!(tear && line + 2 <= fits) && !top)
                    {
                        ClosePart();
                        BreakPage();
                        continue;
                    }
                    if (tear)
                        upTo = Math.Clamp(fits, line + 1, row.Lines - 1);
                }
                if (part is null)
                {
                    Put(new(layout.HeadingHeight, 3, layout.DrawHeading));
                    part = new(_area.X, _y - layout.HeadingHeight);
                    if (again is not null)
                        _y += layout.DrawRow(_canvas, new(_area.X, _y), again);
                }
                _y += layout.DrawRow(_canvas, new(_area.X, _y), row, line, upTo);
                line = upTo;
            }

            group = row.Source.Group ? row : group;
        }
        ClosePart();
        return this;

        void ClosePart()
        {
            if (part is { } start)
                layout.DrawFrame(_canvas, start, _y - start.Y);
            part = null;
        }
    }

    /// <summary>A figure in the middle of the line, made smaller where it is larger than the page, with words below it.</summary>
    public Flow Figure(Figure figure, string caption = "")
    {
        var words = caption.Length == 0 ? [] : TextStyle.Small.Wrap(caption, Width);
        var below = words.Count == 0 ? 0 : 2 + Extent(TextStyle.Small, words.Count);
        var scale = Math.Min(1, Math.Min(Width / figure.Width, (_area.Height - below) / figure.Height));
        var height = figure.Height * scale;
        return Put(new(height + below, 4, (canvas, at) =>
        {
            canvas.Place(figure, at.Moved((Width - (figure.Width * scale)) / 2, 0), scale);
            canvas.Lines(words, at.X, at.Y + height + 2, Width, TextStyle.Small, Anchor.Middle);
        }));
    }

    /// <summary>Columns side by side, their widths in the proportion of the shares; kept together on one page.</summary>
    public Flow Beside(params IReadOnlyList<(double Share, Action<Flow> Fill)> columns)
    {
        const double gap = 6;
        var boxes = new Box(0, 0, Width, 0).Columns(gap, [.. columns.Select(c => c.Share)]);
        var figures = columns.Select((c, i) => Column(boxes[i].Width, c.Fill)).ToList();
        var height = figures.Max(f => f.Height);
        if (height > _area.Height)
        {
            // Too long to stay together: one after the other, each free to run on.
            foreach (var column in columns)
                column.Fill(this);
            return this;
        }
        return Put(new(height, 4, (canvas, at) =>
        {
            for (var i = 0; i < figures.Count; i++)
                canvas.Place(figures[i], at.Moved(boxes[i].X, 0));
        }));
    }

    /// <summary>A part that is not torn apart, unless it is longer than a page.</summary>
    public Flow Together(Action<Flow> fill) => Beside((1, fill));

    /// <summary>Empty space, dropped at the top of a page.</summary>
    public Flow Space(double height) => Put(new(0, height, (_, _) => { }));

    /// <summary>What follows stands on a new page.</summary>
    public Flow PageBreak()
    {
        Put(new(0, 0, (_, _) => { }));
        if (!_fresh)
            BreakPage();
        return this;
    }

    private static double Extent(TextStyle style, int lines) => style.Height + ((lines - 1) * style.Pitch);

    private static void DrawSign(Canvas canvas, Box box)
    {
        var (foot, top) = (box.Bottom, new Spot(box.Centre.X, box.Top));
        canvas.Fill(Shape.Polygon(top, new Spot(box.Right, foot), new Spot(box.Left, foot)), Ink.Accent)
            .Stroke(Shape.Polygon(top, new Spot(box.Right, foot), new Spot(box.Left, foot)), LineStyle.Accent)
            .Line(top.X, box.Top + (box.Height * 0.36), top.X, box.Top + (box.Height * 0.66), new LineStyle(1.3, Dash.Solid, Ink.White))
            .Fill(Shape.Circle(new(top.X, box.Top + (box.Height * 0.85)), 0.8), Ink.White);
    }

    private Flow Points(TextStyle style, IEnumerable<string> points, Func<int, string> sign)
    {
        var all = points.ToList();
        var indent = all.Select((_, i) => style.Width(sign(i))).DefaultIfEmpty().Max() + 2.5;
        for (var i = 0; i < all.Count; i++)
        {
            var mark = sign(i);
            Lines(style.Wrap(all[i], Width - indent), style, indent, Anchor.Start, (canvas, at) =>
                canvas.Text(mark, at.X, at.Y + style.Height, style));
        }
        return this;
    }

    // A paragraph may be torn apart, but not so that one line stands alone.
    private void Lines(IReadOnlyList<string> lines, TextStyle style, double indent, Anchor align, Action<Canvas, Spot>? mark)
    {
        for (var first = 0; first < lines.Count;)
        {
            var left = lines.Count - first;
            var count = left <= 3 ? left : first == 0 ? 2 : 1;
            var part = lines.Skip(first).Take(count).ToList();
            var start = first;
            Put(new(Extent(style, count), first == 0 ? 3 : style.Pitch - style.Height, (canvas, at) =>
            {
                if (start == 0)
                    mark?.Invoke(canvas, at);
                canvas.Lines(part, at.X + indent, at.Y, Width - indent, style, align);
            }));
            first += count;
        }
    }

    private double Room(bool withHeld) => _area.Bottom - _y - (withHeld ? HeldHeight() + (_fresh && _held.Count == 0 ? 0 : 3) : 0);

    private bool Fits(double height, bool withHeld) => height <= Room(withHeld) + 1e-6;

    private double HeldHeight() => _held.Select((p, i) => p.Height + (_fresh && i == 0 ? 0 : p.Gap)).Sum();

    /// <summary>Sets a piece after the headings that wait for it, on a new page where there is no room for all of them.</summary>
    private Flow Put(Piece piece)
    {
        var gap = _fresh && _held.Count == 0 ? 0 : piece.Gap;
        if (!_fresh && HeldHeight() + gap + piece.Height > Remaining + 1e-6)
            BreakPage();
        Release();
        Set(piece);
        return this;
    }

    private void Release()
    {
        foreach (var piece in _held)
            Set(piece);
        _held.Clear();
    }

    private void Set(Piece piece)
    {
        if (!_fresh)
            _y += piece.Gap;
        if (piece.Bookmark is { } bookmark)
            _bookmarks.Add(bookmark with { Y = _y });
        piece.Draw(_canvas, new(_area.X, _y));
        _y += piece.Height;
        _fresh &= piece.Height == 0;
    }

    private void BreakPage()
    {
        if (_paper is null)
            return;
        _pages.Add(ThisPage());
        _canvas = new();
        _bookmarks.Clear();
        (_y, _fresh) = (_area.Top, true);
    }

    private Page ThisPage() => new(_paper!, _block!, _canvas.Marks) { Bookmarks = [.. _bookmarks] };

    private sealed record Piece(double Height, double Gap, Action<Canvas, Spot> Draw)
    {
        public Bookmark? Bookmark { get; init; }
    }
}
