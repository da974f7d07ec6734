using System.Collections.Immutable;
using System.Globalization;

namespace Rootgap.Sheets;

/// <summary>A label and what stands under it; without a value, room to write it in by hand, with the unit at its right.</summary>
public sealed record Field(string Label, string Value = "", string Unit = "");

/// <summary>What every sheet bears at its head: a tab with the reader's name, what the sheet is, which drawing and sheet; below it a strip of what it belongs to.</summary>
/// <param name="Drawing">Number of the drawing, or what the sheet is of; before the title.</param>
public sealed record TitleBlock(string Drawing, string Revision, string Title)
{
    private const double Rule = 14.5, CodeSide = 13.5, NoticeHeight = 9, Gap = 3, StripHeight = 10, SmallStripHeight = 9, Pad = 1.5;

    private static readonly TextStyle Fine = TextStyle.Small;
    private static readonly TextStyle TabStyle = new(4.2, Bold: true, Ink.White);

    /// <summary>Whom the sheet is for.</summary>
    public Reader Reader { get; init; }

    /// <summary>The spool that the sheet belongs to; empty where to none. For the outline.</summary>
    public string Spool { get; init; } = "";

    /// <summary>What the line is, or between what the spool stands: small, beside the sheet's number.</summary>
    public string Project { get; init; } = "";

    /// <summary>In what lengths are: <c>mm</c>, <c>feet and inches</c>; empty where there are none.</summary>
    public string Unit { get; init; } = "";

    /// <summary>A strip below the head, for example line, spool, material.</summary>
    public ImmutableArray<Field> Fields { get; init; } = [];

    /// <summary>Words that must not be missed, in a band across the top, for example NOT FOR FABRICATION.</summary>
    public string Notice { get; init; } = "";

    /// <summary>A head of one line, for pages that are cut into cards.</summary>
    public bool IsLow { get; init; }

    /// <summary>A code for a camera, 13.5 mm square at the upper right corner.</summary>
    public Figure? Code { get; init; }

    /// <summary>What the sheet is, in one line.</summary>
    public string Name => Drawing.Length > 0 ? $"{Drawing}  {Title}" : Title;

    /// <summary>The same with revision, notice, reader, what it belongs to and its unit, in a sentence for who cannot see the page.</summary>
    public string Description => string.Join(", ", new[]
    {
        Notice, Name, Revision.Length > 0 ? "revision " + Revision : "", "for: " + Reader.Tab().ToLowerInvariant(), Project.ReplaceLineEndings(" "), Unit.Length > 0 ? "lengths in " + Unit : "",
    }.Where(t => t.Length > 0)) + ".";

    /// <summary>The live area: the same on the papers of one size in both families, so that nothing is scaled from paper to paper. It begins 20 mm from the left edge, for punching.</summary>
    public static Box Live(Paper paper)
    {
        var (across, up) = paper.Name switch
        {
            "A5" => (148.0, 210.0),
            "A4" or "Letter" => (210.0, 279.0),
            "A3" or "Tabloid" => (279.0, 420.0),
            _ => (Math.Min(paper.Width, paper.Height), Math.Max(paper.Width, paper.Height)),
        };
        var (width, height) = paper.Width > paper.Height ? (up - 30, across - 20) : (across - 30, up - 20);
        return new(20, (paper.Height - height) / 2, width, height);
    }

    /// <summary>The room that is left for the sheet's content.</summary>
    public Box Content(Paper paper)
    {
        if (IsLow)
        {
            var low = Low(paper);
            return new(low.X, low.Bottom + 1, low.Width, Live(paper).Bottom - low.Bottom - 1);
        }

        var set = Set(paper);
        var top = set.Bottom + Gap;
        return new(set.Live.X, top, set.Live.Width, set.Live.Bottom - top);
    }

    /// <summary>Draws the head, as sheet <paramref name="sheet"/> (from 1) of <paramref name="of"/>.</summary>
    public void Draw(Canvas canvas, Paper paper, int sheet, int of)
    {
        Draw(canvas, paper);
        Number(canvas, paper, sheet, of);
    }

    /// <summary>Draws all of the head but the sheet's number, which may not be known yet.</summary>
    public void Draw(Canvas canvas, Paper paper)
    {
        if (IsLow)
        {
            DrawLow(canvas, paper);
            return;
        }

        var set = Set(paper);
        if (Notice.Length > 0)
        {
            var band = set.Live with { Height = NoticeHeight };
            canvas.Group(null, "notice", g => g
                .Fill(Shape.Rectangle(band))
                .Text(Notice, band.Centre.Moved(0, TabStyle.Height / 2), TabStyle with { Height = set.Live.Width < TabStyle.Width(Notice) + 6 ? 2.5 : 4.2 }, Anchor.Middle));
        }

        var head = set.Head;
        var tab = new Box(head.X, head.Y, TabWidth, Rule - 1.3);
        canvas.Group(null, "tab", g => g.Fill(Shape.Rectangle(tab)).Text(Reader.Tab(), tab.Centre.Moved(0, TabStyle.Height / 2), TabStyle, Anchor.Middle));
        var lines = set.Title.Lines;
        var rise = set.Title.Style.Height + ((lines.Count - 1) * set.Title.Style.Pitch);
        canvas.Lines(lines, tab.Right + 4, head.Y + ((head.Height - 1.3 - rise) / 2), head.Width, set.Title.Style, Anchor.Start);
        if (Code is { } code)
            canvas.Place(code, new(head.Right - CodeSide, head.Y - 0.5), CodeSide / Math.Max(code.Width, code.Height));
        canvas.Line(head.Left, head.Bottom, head.Right, head.Bottom, LineStyle.Thick);
        canvas.Lines(set.Project.Lines, set.Project.X, set.Project.Top, set.Project.Width, Fine, Anchor.End);
        Strip(canvas, set);
    }

    /// <summary>Draws the line with the sheet's number alone.</summary>
    public void Number(Canvas canvas, Paper paper, int sheet, int of)
    {
        if (IsLow)
        {
            canvas.Text(string.Create(CultureInfo.InvariantCulture, $"sheet {sheet} of {of}"), Low(paper).Right, Low(paper).Top + 3.9, Fine, Anchor.End);
            return;
        }

        var set = Set(paper);
        var words = string.Create(CultureInfo.InvariantCulture, $"{Leading}sheet {sheet} of {of}");
        canvas.Text(words, set.Number.X, set.Number.Y, Fine, set.IsLarge ? Anchor.End : Anchor.Start);
    }

    private const double LowHeight = 5.4;

    private Box Low(Paper paper)
    {
        var live = Live(paper);
        return live with { Y = live.Y + (Notice.Length > 0 ? LowHeight + 1 : 0), Height = LowHeight };
    }

    // Tab, what it is, revision and unit in one line; the number stands at its right.
    private void DrawLow(Canvas canvas, Paper paper)
    {
        var low = Low(paper);
        var small = new TextStyle(2.5, Bold: true, Ink.White);
        if (Notice.Length > 0)
        {
            var band = Live(paper) with { Height = LowHeight };
            canvas.Group(null, "notice", g => g.Fill(Shape.Rectangle(band)).Text(Notice, band.Centre.Moved(0, 1.3), small, Anchor.Middle));
        }

        var tab = low with { Width = small.Width(Reader.Tab()) + 4, Height = LowHeight - 0.4 };
        canvas.Group(null, "tab", g => g.Fill(Shape.Rectangle(tab)).Text(Reader.Tab(), tab.Centre.Moved(0, 1.25), small, Anchor.Middle));
        const string Sheet = "sheet 8888 of 8888";
        var title = Fine with { Bold = true, Height = 3.5 };
        var room = low.Right - tab.Right - 5 - Fine.Width(Leading + Sheet);
        canvas.Text(Name, tab.Right + 2, low.Top + 4.1, title.Width(Name) <= room ? title : Fine with { Bold = true });
        canvas.Text(Leading.TrimEnd(), low.Right - Fine.Width("     " + Sheet), low.Top + 3.9, Fine, Anchor.End);
    }

    private string Leading => string.Concat(new[] { Revision.Length > 0 ? "revision " + Revision : "", Unit }.Where(t => t.Length > 0).Select(t => t + "     "));

    private double TabWidth => TabStyle.Width(Reader.Tab()) + 8;

    private sealed record Setting(bool IsLarge, Box Live, Box Head, (IReadOnlyList<string> Lines, TextStyle Style) Title, Spot Number,
        (IReadOnlyList<string> Lines, double X, double Top, double Width) Project, double StripTop, IReadOnlyList<IReadOnlyList<(Field Field, double Width)>> Rows, double Bottom);

    private Setting Set(Paper paper)
    {
        var live = Live(paper);
        var isLarge = live.Width > 300;
        var top = live.Y + (Notice.Length > 0 ? NoticeHeight + 2 : 0);
        var code = Code is null ? 0 : CodeSide + 2;
        var number = Fine.Width(Leading + "sheet 8888 of 8888");
        var beside = isLarge ? Math.Max(number, Math.Min(Project.Length > 0 ? Fine.Width(Project) : 0, live.Width * 0.36)) + 4 : 0;
        var room = live.Width - TabWidth - 5 - code - beside;
        // Large where it fits on a line, never squeezed: a long title takes more lines.
        TextStyle[] styles = [.. isLarge ? [TextStyle.Title] : Array.Empty<TextStyle>(), TextStyle.Title with { Height = 5.6 }, TextStyle.Title with { Height = 5 }, TextStyle.Strong];
        var style = styles.FirstOrDefault(s => s.Width(Name) <= room) ?? styles[^1];
        var title = style.Wrap(Name, room);
        var beneath = isLarge && Project.Length > 0 ? Fine.Wrap(Project, beside - 4) : [];
        var head = new Box(live.X, top, live.Width, Math.Max(Rule, Math.Max(style.Height + ((title.Count - 1) * style.Pitch) + 2.8, 4.5 + (beneath.Count * Fine.Pitch) + 1.5)));
        if (isLarge)
        {
            var right = live.Right - code - 2;
            var set = new Setting(true, live, head, (title, style), new(right, head.Y + 4), (beneath, right - beside, head.Y + 6, beside), head.Bottom, StripRows(live.Width), 0);
            return set with { Bottom = head.Bottom + set.Rows.Sum(r => RowHeight(r, StripHeight)) };
        }

        var wide = Math.Max(live.Width - number - 6, live.Width * 0.4);
        var project = Project.Length > 0 ? Fine.Wrap(Project, wide) : [];
        // A drawing's own words may need the whole line; then they stand below the number.
        var under = 1.6 + Fine.Height + (Math.Max(0, project.Count - 1) * Fine.Pitch) + 1.9;
        var small = new Setting(false, live, head, (title, style), new(live.X, head.Bottom + 1.6 + Fine.Height), (project, live.Right - wide, head.Bottom + 1.6, wide), head.Bottom + under, StripRows(live.Width), 0);
        return small with { Bottom = small.StripTop + small.Rows.Sum(r => RowHeight(r, SmallStripHeight)) };
    }

    private static double Needs(Field field) => Math.Max(Fine.Width(field.Label), (Fine with { Bold = true }).Width(FieldBox.Words(field))) + (2 * Pad) + 0.5;

    private IReadOnlyList<IReadOnlyList<(Field, double)>> StripRows(double width)
    {
        if (Fields.IsEmpty)
            return [];
        List<List<Field>> rows = [[]];
        var taken = 0.0;
        foreach (var field in Fields)
        {
            var needs = Math.Min(width, Needs(field));
            if (rows[^1].Count > 0 && taken + needs > width)
            {
                rows.Add([]);
                taken = 0;
            }

            rows[^1].Add(field);
            taken += needs;
        }

        return
        [
            .. rows.Select(r =>
            {
                var spare = (width - r.Sum(f => Math.Min(width, Needs(f)))) / r.Count;
                return (IReadOnlyList<(Field, double)>)[.. r.Select(f => (f, Math.Min(width, Needs(f)) + spare))];
            }),
        ];
    }

    private static double RowHeight(IReadOnlyList<(Field Field, double Width)> row, double least) =>
        row.Max(f => least + ((Math.Max(1, (Fine with { Bold = true }).Wrap(FieldBox.Words(f.Field), f.Width - (2 * Pad)).Count) - 1) * Fine.Pitch));

    private static void Strip(Canvas canvas, Setting set)
    {
        var y = set.StripTop;
        foreach (var row in set.Rows)
        {
            var height = RowHeight(row, set.IsLarge ? StripHeight : SmallStripHeight);
            var x = set.Live.X;
            foreach (var (field, width) in row)
            {
                canvas.Rectangle(new(x, y, width, height), LineStyle.Thin);
                canvas.Text(field.Label, x + Pad, y + 1.2 + Fine.Height, Fine);
                canvas.Lines((Fine with { Bold = true }).Wrap(FieldBox.Words(field), width - (2 * Pad)), x + Pad, y + height - 1.3 - (height - (set.IsLarge ? StripHeight : SmallStripHeight)) - Fine.Height, width, Fine with { Bold = true }, Anchor.Start);
                x += width;
            }

            y += height;
        }
    }
}

/// <summary>How a <see cref="Field"/> stands in its box: label small at the top, value below it, unit at the right.</summary>
internal static class FieldBox
{
    private const double Margin = 1.5;

    /// <summary>Height the box needs at a width, mm.</summary>
    public static double Height(Field field, double width, TextStyle style, double roomToWrite)
    {
        var lines = style.Wrap(Words(field), width - (2 * Margin)).Count;
        return Head(field, width) + (field.Value.Length > 0 ? style.Height + ((lines - 1) * style.Pitch) + (Margin * 1.5) : roomToWrite);
    }

    public static void Draw(Canvas canvas, Box box, Field field, TextStyle style)
    {
        var inner = box.Inset(Margin, 0);
        var labels = TextStyle.Small.Wrap(field.Label, inner.Width);
        canvas.Lines(labels, inner.X, box.Y + Margin, inner.Width, TextStyle.Small, Anchor.Start);
        var head = Head(field, box.Width);
        if (field.Value.Length > 0)
            canvas.TextIn(new(inner.X, box.Y + head, inner.Width, box.Height - head - Margin), Words(field), style);
        else
            canvas.Text(field.Unit, new Spot(inner.Right, box.Bottom - (Margin * 1.5)), TextStyle.Body, Anchor.End);
    }

    public static string Words(Field field) =>
        field.Value.Length > 0 && field.Unit.Length > 0 ? field.Value + " " + field.Unit : field.Value;

    private static double Head(Field field, double width)
    {
        var lines = TextStyle.Small.Wrap(field.Label, width - (2 * Margin)).Count;
        return Margin + TextStyle.Small.Height + ((lines - 1) * TextStyle.Small.Pitch) + (Margin * 1.3);
    }
}
