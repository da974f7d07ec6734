using System.Collections.Immutable;
using System.Globalization;

namespace Rootgap.Sheets;

/// <summary>A label and what stands under it; without a value, room to write it in by hand, with the unit at its right.</summary>
public sealed record Field(string Label, string Value = "", string Unit = "");

/// <summary>What every sheet of a packet bears: at the top what the sheet is, at the foot which drawing it belongs to and which sheet it is.</summary>
public sealed record TitleBlock(string Drawing, string Revision, string Title)
{
    /// <summary>Space left free around the sheet, mm: what office printers cannot reach, and room to punch at the left.</summary>
    public const double Margin = 10, Binding = 15;

    private const double FootHeight = 14, CodeSide = 20, NoticeHeight = 9, Gap = 3;

    /// <summary>Job, plant or client; at the right of the top.</summary>
    public string Project { get; init; } = "";

    /// <summary>Further cells of the foot, for example line, spool, material.</summary>
    public ImmutableArray<Field> Fields { get; init; } = [];

    /// <summary>Words that must not be missed, in a band across the top, for example NOT FOR FABRICATION.</summary>
    public string Notice { get; init; } = "";

    /// <summary>A code for a camera, 20 mm high at the upper right corner.</summary>
    public Figure? Code { get; init; }

    /// <summary>The room that is left for the sheet's content.</summary>
    public Box Content(Paper paper)
    {
        var frame = Frame(paper);
        var top = Head(frame).Bottom + Gap;
        return new(frame.X, top, frame.Width, Foot(frame).Top - Gap - top);
    }

    /// <summary>Draws the block, as sheet <paramref name="sheet"/> (from 1) of <paramref name="of"/>.</summary>
    public void Draw(Canvas canvas, Paper paper, int sheet, int of)
    {
        var frame = Frame(paper);
        DrawHead(canvas, frame);
        DrawFoot(canvas, Foot(frame), paper, sheet, of);
    }

    private static Box Frame(Paper paper) =>
        new(Binding, Margin, paper.Width - Margin - Binding, paper.Height - (2 * Margin));

    private Box Head(Box frame)
    {
        var notice = Notice.Length > 0 ? NoticeHeight + 2 : 0;
        var style = TitleStyle(frame);
        var words = style.Wrap(Title, TitleWidth(frame)).Count * style.Pitch;
        return frame with { Y = frame.Y + notice, Height = Math.Max(Math.Max(words + 3, 11), Code is null ? 0 : CodeSide + 1) };
    }

    private Box Foot(Box frame) => frame.CutBottom(FootHeight * (Fields.IsEmpty ? 1 : 2)).Strip;

    private double TitleWidth(Box frame) =>
        (Project.Length > 0 ? frame.Width * 0.62 : frame.Width) - (Code is null ? 0 : CodeSide + 3);

    // Smaller where the title would take more than two lines.
    private TextStyle TitleStyle(Box frame)
    {
        TextStyle[] styles = [TextStyle.Heading, TextStyle.Heading with { Height = 4.2 }, TextStyle.Strong];
        return styles.FirstOrDefault(s => s.Wrap(Title, TitleWidth(frame)).Count <= 2) ?? styles[^1];
    }

    private void DrawHead(Canvas canvas, Box frame)
    {
        var head = Head(frame);
        if (Notice.Length > 0)
        {
            var band = frame with { Height = NoticeHeight };
            var white = new TextStyle(5, Bold: true, Ink.White).Fitting(Notice, band.Width - 6);
            canvas.Group(null, "notice", g => g
                .Fill(Shape.Rectangle(band), Ink.Accent)
                .Text(Notice, band.Centre.Moved(0, white.Height / 2), white, Anchor.Middle));
        }
        var right = head.Right;
        if (Code is { } code)
        {
            canvas.Place(code, new(head.Right - CodeSide, head.Y), CodeSide / Math.Max(code.Width, code.Height));
            right -= CodeSide + 3;
        }
        var style = TitleStyle(frame);
        var title = style.Wrap(Title, TitleWidth(frame));
        var rise = style.Height + ((title.Count - 1) * style.Pitch);
        canvas.Lines(title, head.X, head.Bottom - (title.Count > 1 ? 3 : 2) - rise, head.Width, style, Anchor.Start);
        if (Project.Length > 0)
        {
            var room = right - head.X - TitleWidth(frame) - 4;
            canvas.TextIn(new(right - room, head.Y + 1, room, head.Height - 4), Project, TextStyle.Small, Anchor.End);
        }
        canvas.Line(head.Left, head.Bottom, head.Right, head.Bottom, LineStyle.Thick);
    }

    private void DrawFoot(Canvas canvas, Box foot, Paper paper, int sheet, int of)
    {
        var last = foot;
        if (!Fields.IsEmpty)
        {
            (var first, last) = foot.CutTop(FootHeight);
            DrawCells(canvas, first, Fields, [.. Fields.Select(_ => 1.0)]);
        }
        var number = string.Create(CultureInfo.InvariantCulture, $"{sheet} of {of}");
        DrawCells(canvas, last,
            [new("Drawing", Drawing), new("Revision", Revision), new("Paper", paper.Name), new("Sheet", number)], [5, 2, 1.6, 2.2]);
        canvas.Rectangle(foot, LineStyle.Thick);
    }

    private static void DrawCells(Canvas canvas, Box row, IReadOnlyList<Field> fields, IReadOnlyList<double> shares)
    {
        var columns = row.Columns(0, shares);
        for (var i = 0; i < fields.Count; i++)
        {
            FieldBox.Draw(canvas, columns[i], fields[i], TextStyle.Strong with { Height = 4 });
            if (i > 0)
                canvas.Line(columns[i].Left, row.Top, columns[i].Left, row.Bottom, LineStyle.Medium);
        }
        canvas.Line(row.Left, row.Top, row.Right, row.Top, LineStyle.Medium);
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

    private static string Words(Field field) =>
        field.Value.Length > 0 && field.Unit.Length > 0 ? field.Value + " " + field.Unit : field.Value;

    private static double Head(Field field, double width)
    {
        var lines = TextStyle.Small.Wrap(field.Label, width - (2 * Margin)).Count;
        return Margin + TextStyle.Small.Height + ((lines - 1) * TextStyle.Small.Pitch) + (Margin * 1.3);
    }
}
