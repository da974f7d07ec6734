using System.Globalization;
using Rootgap.Fabricating;
using Rootgap.Measure;

namespace Rootgap.Sheets;

/// <summary>
/// Wrap-around templates in true size: the strip with a control line, on the paper that takes fewest sheets, tiled with overlap where even that is too small; what is said of it and the table of ordinates
/// beside it where there is room, else on a sheet before it. What cannot lie flat on its pipe, as lengths of tape over an elbow, has the table and a sketch.
/// </summary>
public static class TemplateSheets
{
    /// <summary>Overlap of two tiles, mm.</summary>
    private const double Overlap = 15;

    /// <summary>The strip between its straight edge and the deepest of the cut, mm: what holds it square round the pipe.</summary>
    private const double Band = 30;

    /// <summary>Height of the strip down to the pipe's end, mm.</summary>
    private static double Height(Template t) => t.Deepest + (t.IsTakenOff ? Band : 0);

    /// <summary>How far below the straight edge the cut line lies at an angle, mm.</summary>
    private static double Line(Template t, double angle) => t.IsTakenOff ? Height(t) - t.At(angle) : t.At(angle);

    /// <summary>Length of the line that proves the printer's scale, mm: 100, or 4 inches.</summary>
    public static double ControlLine(Units units) => units == Units.Inches ? 4 * LengthText.Inch : 100;

    private static string ControlSaid(Units units) => units == Units.Inches ? LengthText.FeetInches(ControlLine(units)) : LengthText.WholeMillimetres(ControlLine(units)) + " mm";

    private const int Fineness = 4;

    /// <param name="units">In which ordinates and girths are said first.</param>
    public static IReadOnlyList<Page> Of(Template template, TitleBlock block, Paper paper, Units units = Units.Millimetres) =>
        [.. template.IsTakenOff ? Strip(template, block, paper, units) : Table(template, block, paper, units), .. template.Pad is { } pad ? Flat(template.Title + ": pad, cut from plate and rolled on the header", [pad.Edge, pad.Hole], template.HoleEnds, block, paper, units) : []];

    /// <summary>The whole strip as one figure in true size, however large: for a plotter or the screen.</summary>
    public static Scene Whole(Template template, Units units = Units.Millimetres)
    {
        var canvas = new Canvas();
        var room = new Box(0, 0, template.Round + 20, Height(template) + 40);
        DrawStrip(canvas, template, new Spot(10, 15), room);
        DrawControl(canvas, new Spot(10, Height(template) + 30), units);
        return canvas.ToScene(new Paper("strip", Math.Max(room.Width, ControlLine(units) + 60), room.Height), template.Title);
    }

    private static IReadOnlyList<Page> Table(Template template, TitleBlock block, Paper paper, Units units)
    {
        var flow = new Flow(paper.Portrait, block with { Title = template.Title });
        if (!template.IsTakenOff)
            flow.Figure(Sketch(template, flow.Width), "Sketch, not to size: the outside of the elbow unrolled. Up from the end that stays; the thick line is the cut.");
        Notes(flow, template, units);
        Ordinates(flow, template, units);
        Caution(flow);
        return flow.Pages;
    }

    private static void Notes(Flow flow, Template template, Units units)
    {
        string Said(double mm) => units == Units.Inches ? LengthText.FeetInches(mm) : LengthText.Millimetres(mm, 1) + " mm";
        if (template.IsTakenOff)
            flow.Paragraph(string.Create(CultureInfo.InvariantCulture,
            $"Print in true size (no fitting to the page) and measure the control line: it is {ControlSaid(units)} long. The strip is {Said(template.Round)} long, once round {Said(template.Outside)}: cut it out round its edges and the chain line, wrap it with the chain line on the pipe's square end, where its two ends meet, and prick the thick line through: there the pipe is cut."));
        if (template.Caution.Length > 0)
            flow.Paragraph(template.Caution, TextStyle.Strong);
        flow.Bullets(template.Notes);
    }

    private static void Ordinates(Flow flow, Template template, Units units, double letters = 3)
    {
        flow.Heading("Ordinates, for laying out by hand", 2);
        var ordinates = template.Ordinates.ToList();
        var name = units == Units.Inches ? "inches" : "mm";
        flow.Table(new Table(
            ["Line", new("Round from 0, " + name, Anchor.End), new("Ordinate, " + name, Anchor.End), new("", ColumnWidth.Share())],
            Enumerable.Range(0, Template.Parts + 1).Select(i =>
            {
                return new Row(template.NameOfLine(i), LengthText.In(units, template.Round * i / Template.Parts), new Cell(LengthText.In(units, ordinates[i % Template.Parts])) { Bold = true }, NameAt(template, i));
            }))
        { Style = TextStyle.Small with { Height = letters } });
    }

    private static void Caution(Flow flow) => flow.Warning("Hot cutting and grinding need the site's hot-work permit, guards and eye protection. The welding procedure decides bevel, gap and fit.", "Caution");

    // What is said and the table: one above the other, or side by side in a low room; null where neither fits.
    private static Figure? Words(Template template, Units units, double width, double height)
    {
        const double Narrowest = 105, Widest = 180, Gap = 8;
        if (width < Narrowest)
            return null;
        var half = Math.Min((width - Gap) / 2, Widest);
        foreach (var letters in (double[])[3, 2.5])
        {
            var column = Flow.Column(Math.Min(width, Widest), flow =>
            {
                Notes(flow, template, units);
                Ordinates(flow, template, units, letters);
                Caution(flow);
            });
            if (column.Height <= height)
                return column;
            if (half < Narrowest)
                continue;
            var (left, right) = (Flow.Column(half, flow =>
            {
                Notes(flow, template, units);
                Caution(flow);
            }), Flow.Column(half, flow => Ordinates(flow, template, units, letters)));
            if (Math.Max(left.Height, right.Height) <= height)
                return new Canvas().Place(left, new(0, 0)).Place(right, new(half + Gap, 0)).ToFigure((2 * half) + Gap, Math.Max(left.Height, right.Height));
        }

        return null;
    }

    private static string NameAt(Template template, int line) =>
        template.Marks.FirstOrDefault(m => Math.Abs((m.Angle * Template.Parts / (2 * Math.PI)) - (line % Template.Parts)) < 1e-9).Name ?? "";

    // Unrolled: sixteen lines from the end that stays, the longest and the shortest with their lengths.
    private static Figure Sketch(Template template, double width)
    {
        const double Tall = 46, Foot = 6, Side = 16;
        var canvas = new Canvas();
        var across = width - (2 * Side);
        Spot On(double share, double along) => new(Side + (across * share), Foot + Tall - (along / template.Deepest * Tall));
        for (var i = 0; i <= Template.Parts; i++)
        {
            var share = (double)i / Template.Parts;
            canvas.Line(On(share, 0), On(share, template.At(share * 2 * Math.PI)), LineStyle.Thin);
            canvas.Text(template.NameOfLine(i), On(share, 0).Moved(0, 4), TextStyle.Small, Anchor.Middle);
        }

        canvas.Line(On(0, 0), On(1, 0), LineStyle.Medium);
        canvas.Polyline([.. Enumerable.Range(0, 121).Select(i => On(i / 120.0, template.At(i * 2 * Math.PI / 120)))], LineStyle.Thick);
        return canvas.ToFigure(width, Foot + Tall + 6);
    }

    private static IEnumerable<Page> Strip(Template template, TitleBlock block, Paper paper, Units units)
    {
        var strip = new Drawing(template.Round + 8, Height(template) + 12, (canvas, corner, room) => DrawStrip(canvas, template, corner.Moved(4, 8), room));
        List<(string Title, Drawing What)> parts = [(template.Title, strip)];
        if (template.Hole.Count > 0)
        {
            // The hole in the header stands under the strip where one sheet takes both.
            var hole = Laid([template.Hole], template.HoleEnds);
            var below = strip.Height + HoleHead;
            var both = new Drawing(Math.Max(strip.Width, hole.Width), below + hole.Height, (canvas, corner, room) =>
            {
                strip.Draw(canvas, corner, room);
                canvas.Text("hole in the header", corner.Moved(4, below - 3), TextStyle.Strong);
                hole.Draw(canvas, corner.Moved(0, below), room);
            })
            { Taken = [new(0, 0, strip.Width, below), new(0, below, hole.Width, hole.Height)] };
            parts = Sheets(block, template.Title, paper).Any(p => Count(block, template.Title, p, both) == 1)
                ? [(template.Title + " and the hole in the header", both)]
                : [.. parts, (template.Title + ": hole in the header", hole)];
        }

        // The words stand on the first of these that has room for them.
        var at = parts.FindIndex(part => Sheets(block, part.Title, paper).Any(p => Fewest(block, part.Title, p, paper, part.What) && Beside(block, part.Title, p, part.What, template, units) is not null));
        return [.. at < 0 ? Table(template, block, paper, units) : [], .. parts.SelectMany((part, i) => Tiles(part.Title, block, paper, units, part.What, i == at ? p => Beside(block, part.Title, p, part.What, template, units) : null))];
    }

    private static bool Fewest(TitleBlock block, string title, Paper one, Paper paper, Drawing what) => Count(block, title, one, what) == Sheets(block, title, paper).Min(p => Count(block, title, p, what));

    // The words with their place on the last tile.
    private static (Spot Corner, Figure Words)? Beside(TitleBlock block, string title, Paper paper, Drawing what, Template template, Units units)
    {
        const double Clear = 6;
        var room = Room(block, title, paper);
        var (columns, rows) = Grid(room, what);
        var corner = new Spot(room.X - ((columns - 1) * (room.Width - Overlap)), room.Y - ((rows - 1) * (room.Height - Overlap)));
        var taken = (what.Taken.Count > 0 ? what.Taken : [new(0, 0, what.Width, what.Height)]).Select(b => new Box(b.X + corner.X, b.Y + corner.Y, b.Width + Clear, b.Height + Clear)).ToList();
        var (left, top) = (room.X + (columns > 1 ? Overlap + Clear : 0), room.Y + (rows > 1 ? Overlap + Clear : 0));
        foreach (var x in taken.Select(b => b.Right).Append(left).Where(x => left <= x && x < room.Right).Order())
        {
            foreach (var y in taken.Select(b => b.Bottom).Append(top).Where(y => top <= y && y < room.Bottom).Order())
            {
                var free = new Box(x, y, room.Right - x, room.Bottom - y);
                if (!taken.Exists(b => b.Overlaps(free)) && Words(template, units, free.Width, free.Height) is { } words)
                    return (new(x, y), words);
            }
        }

        return null;
    }

    private const double HoleHead = 9;

    /// <summary>What is drawn in true size: how large, and its drawing, given where its upper left corner would be and the room that may be used.</summary>
    private sealed record Drawing(double Width, double Height, Action<Canvas, Spot, Box> Draw)
    {
        /// <summary>Where it lies from its corner; all of it where none is named.</summary>
        public IReadOnlyList<Box> Taken { get; init; } = [];
    }

    /// <summary>Edges to be laid on the header, as a hole or a pad: one centreline round the header, one along it.</summary>
    private static IEnumerable<Page> Flat(string title, IReadOnlyList<IReadOnlyList<(double Round, double Along)>> edges, (string Ahead, string Behind) ends, TitleBlock block, Paper paper, Units units) =>
        edges.All(e => e.Count == 0) ? [] : Tiles(title, block, paper, units, Laid(edges, ends));

    private static Drawing Laid(IReadOnlyList<IReadOnlyList<(double Round, double Along)>> edges, (string Ahead, string Behind) ends)
    {
        var all = edges.SelectMany(e => e).ToList();
        const double Room = 20;
        var (left, right) = (all.Min(p => p.Round) - Room, all.Max(p => p.Round) + Room);
        // The line where the axes meet is on it, though the hole of a branch that leans lies beside it.
        var (low, high) = (Math.Min(0, all.Min(p => p.Along)) - Room, Math.Max(0, all.Max(p => p.Along)) + Room);
        return new(right - left, high - low, (canvas, corner, room) =>
        {
            Spot On(double round, double along) => new(corner.X + round - left, corner.Y + high - along);
            void Stroke(IEnumerable<Spot> spots, LineStyle style)
            {
                foreach (var part in Clip(spots, room))
                    canvas.Polyline(part, style);
            }

            foreach (var edge in edges)
                Stroke(edge.Select(p => On(p.Round, p.Along)), LineStyle.Thick);
            Stroke([On(left, 0), On(right, 0)], LineStyle.Thin with { Dash = Dash.Chain });
            Stroke([On(0, low), On(0, high)], LineStyle.Thin with { Dash = Dash.Chain });
            if (room.Holds(new(On(0, high).X, On(0, high).Y, 60, 8)))
                canvas.Text("along the header", On(0, high).Moved(2, 5), TextStyle.Small);
            if (room.Holds(new(On(left, 0).X, On(left, 0).Y - 8, 40, 8)))
                canvas.Text(ends.Ahead.Length > 0 ? "round, where the axes meet" : "round", On(left, 0).Moved(2, -2), TextStyle.Small);
            // The innermost edge, the hole, is not the same both ways where the branch leans. Its ends are named outside it, where it curves away from the words.
            var (far, near) = (On(0, edges[^1].Max(p => p.Along)), On(0, edges[^1].Min(p => p.Along)));
            foreach (var (end, name, down) in new[] { (far, ends.Ahead, -2.5), (near, ends.Behind, 5.0) })
            {
                var width = TextStyle.Strong.Width(name);
                if (name.Length > 0 && room.Holds(new(end.X + 2, end.Y + down - 4, width, 6)))
                    canvas.Text(name, end.Moved(2, down), TextStyle.Strong);
            }
        });
    }

    // The job's own paper both ways, then the larger one of the family.
    private static IReadOnlyList<Paper> Sheets(TitleBlock block, string title, Paper paper) =>
        [.. new[] { paper.Landscape, paper.Portrait, paper.Larger.Landscape, paper.Larger.Portrait }.Where(p => Room(block, title, p) is { Width: > 2 * Overlap, Height: > 2 * Overlap })];

    // Room for the longest title that a tile can have; the foot of the tile keeps the control line.
    private static Box Room(TitleBlock block, string title, Paper paper)
    {
        var content = (block with { Title = title + ", tile 10 of 10" }).Content(paper);
        return new(content.X, content.Y, content.Width, content.Height - 14);
    }

    private static (int Columns, int Rows) Grid(Box room, Drawing what) =>
        (Math.Max(1, (int)Math.Ceiling((what.Width - Overlap) / (room.Width - Overlap))), Math.Max(1, (int)Math.Ceiling((what.Height - Overlap) / (room.Height - Overlap))));

    private static int Count(TitleBlock block, string title, Paper paper, Drawing what)
    {
        var (columns, rows) = Grid(Room(block, title, paper), what);
        return columns * rows;
    }

    /// <summary>Pages that show a drawing in true size, part by part with overlap, on the paper that takes fewest.</summary>
    /// <param name="words">What stands beside it on the last tile, by the paper.</param>
    private static IEnumerable<Page> Tiles(string title, TitleBlock block, Paper paper, Units units, Drawing what, Func<Paper, (Spot Corner, Figure Words)?>? words = null)
    {
        var sheet = Sheets(block, title, paper).OrderBy(p => Count(block, title, p, what)).ThenBy(p => words is null || words(p) is not null ? 0 : 1).First();
        var beside = words?.Invoke(sheet);
        var room = Room(block, title, sheet);
        var (across, down) = (room.Width - Overlap, room.Height - Overlap);
        var (columns, rows) = Grid(room, what);
        for (var row = 0; row < rows; row++)
        {
            for (var column = 0; column < columns; column++)
            {
                var (c, r) = (column, row);
                var name = columns * rows == 1 ? title : string.Create(CultureInfo.InvariantCulture, $"{title}, tile {(row * columns) + column + 1} of {columns * rows}");
                yield return Page.Draw(sheet, block with { Title = name }, (canvas, area) =>
                {
                    what.Draw(canvas, new Spot(room.X - (c * across), room.Y - (r * down)), room);
                    if (c > 0)
                        Match(canvas, room.X + Overlap, room);
                    if (c < columns - 1)
                        Match(canvas, room.Right - Overlap, room);
                    if (r > 0)
                        MatchLevel(canvas, room.Y + Overlap, room);
                    if (r < rows - 1)
                        MatchLevel(canvas, room.Bottom - Overlap, room);
                    DrawControl(canvas, new Spot(room.X + 2, room.Bottom + 9), units);
                    if (beside is var (at, said) && c == columns - 1 && r == rows - 1)
                        canvas.Place(said, at);
                });
            }
        }
    }

    /// <summary>The line on which the next tile is laid.</summary>
    private static void Match(Canvas canvas, double x, Box room)
    {
        canvas.Line(x, room.Top, x, room.Bottom, LineStyle.Thin with { Dash = Dash.Chain });
        canvas.Text("lay the next tile's line here", x - 1, room.Bottom - 2, TextStyle.Small, Anchor.Start, -Math.PI / 2);
    }

    private static void MatchLevel(Canvas canvas, double y, Box room)
    {
        canvas.Line(room.Left, y, room.Right, y, LineStyle.Thin with { Dash = Dash.Chain });
        canvas.Text("lay the next tile's line here", room.Left + 2, y - 1, TextStyle.Small);
    }

    private static void DrawControl(Canvas canvas, Spot at, Units units)
    {
        var length = ControlLine(units);
        canvas.Line(at, at.Moved(length, 0), LineStyle.Medium);
        canvas.Line(at.Moved(0, -2), at.Moved(0, 2), LineStyle.Medium);
        canvas.Line(at.Moved(length, -2), at.Moved(length, 2), LineStyle.Medium);
        canvas.Text($"control line {ControlSaid(units)}", at.Moved(length + 3, 1.2), TextStyle.Small);
    }

    /// <summary>Draws the part of the strip that lies in the room; <paramref name="at"/> is where its upper left corner would be.</summary>
    private static void DrawStrip(Canvas canvas, Template template, Spot at, Box room)
    {
        void Stroke(IEnumerable<Spot> spots, LineStyle style)
        {
            foreach (var part in Clip(spots, room))
                canvas.Polyline(part, style);
        }

        Stroke([at, at.Moved(template.Round, 0)], LineStyle.Medium);
        if (template.IsTakenOff)
            Stroke([at.Moved(0, Height(template)), at.Moved(template.Round, Height(template))], LineStyle.Thin with { Dash = Dash.Chain });
        Stroke([at, at.Moved(0, Height(template))], LineStyle.Medium);
        Stroke([at.Moved(template.Round, 0), at.Moved(template.Round, Height(template))], LineStyle.Medium);
        var steps = Math.Max(Template.Parts * Fineness, (int)template.Round);
        Stroke(Enumerable.Range(0, steps + 1).Select(i => new Spot(at.X + (template.Round * i / steps), at.Y + Line(template, i * 2 * Math.PI / steps))), LineStyle.Thick);
        for (var i = 0; i <= Template.Parts; i++)
        {
            var x = at.X + (template.Round * i / Template.Parts);
            Stroke([new(x, at.Y), new(x, at.Y + Line(template, i * 2 * Math.PI / Template.Parts))], LineStyle.Thin);
            if (x < room.Left || x > room.Right - 3)
                continue;
            if (at.Y + 5 < room.Bottom && at.Y > room.Top - 6)
                canvas.Text(template.NameOfLine(i), x + 1, at.Y + 4, TextStyle.Small);
            if (NameAt(template, i) is { Length: > 0 } name && at.Y + Band < room.Bottom && at.Y + Band > room.Top + 20 && x + 5 < room.Right)
                canvas.Text(name, x + 4, at.Y + Band - 1, TextStyle.Small with { Bold = true }, Anchor.Start, -Math.PI / 2);
        }
    }

    /// <summary>The stretches of a line that lie in a box (Liang and Barsky, 1984, segment by segment).</summary>
    private static IEnumerable<List<Spot>> Clip(IEnumerable<Spot> spots, Box box)
    {
        var part = new List<Spot>();
        Spot? last = null;
        foreach (var spot in spots)
        {
            if (last is { } a)
            {
                if (Inside(a, spot, box) is var (from, to))
                {
                    if (part.Count == 0 || part[^1] != from)
                    {
                        if (part.Count > 1)
                            yield return part;
                        part = [from];
                    }

                    part.Add(to);
                }
                else if (part.Count > 1)
                {
                    yield return part;
                    part = [];
                }
            }

            last = spot;
        }

        if (part.Count > 1)
            yield return part;
    }

    private static (Spot From, Spot To)? Inside(Spot a, Spot b, Box box)
    {
        var (t0, t1) = (0.0, 1.0);
        var (dx, dy) = (b.X - a.X, b.Y - a.Y);
        foreach (var (p, q) in new[] { (-dx, a.X - box.Left), (dx, box.Right - a.X), (-dy, a.Y - box.Top), (dy, box.Bottom - a.Y) })
        {
            if (p == 0)
            {
                if (q < 0)
                    return null;
                continue;
            }

            var t = q / p;
            if (p < 0)
                t0 = Math.Max(t0, t);
            else
                t1 = Math.Min(t1, t);
        }

        return t0 < t1 ? (a.Toward(b, t0), a.Toward(b, t1)) : null;
    }
}
