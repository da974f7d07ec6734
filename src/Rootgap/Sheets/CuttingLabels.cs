using System.Globalization;
using System.Text;
using Rootgap.Cutting;
using Rootgap.Measure;

namespace Rootgap.Sheets;

/// <summary>
/// Labels for what comes off the saw: a label for each piece and each remnant, in the order of cutting, to be cut apart and tied or stuck on. Each has a
/// QR code of plain words, a line each, that any reader shows.
/// </summary>
public static class CuttingLabels
{
    private const double Height = 37, Gap = 2, Code = 27;

    /// <summary>Smallest and largest label that is printed by itself, mm: below, its words could not be read.</summary>
    public const double Narrowest = 50, Lowest = 25, Longest = 300;

    /// <summary>A label's size as people write it: 100x50, 62 x 40; across first, mm.</summary>
    /// <param name="paper">A page of that size.</param>
    /// <param name="why">What is wrong with it, with what to do; empty where nothing is.</param>
    public static bool TrySize(string text, out Paper paper, out string why)
    {
        (paper, why) = (new(text, 0, 0), "");
        if (text.Split(['x', 'X', '×'], StringSplitOptions.TrimEntries) is not [var across, var down] || !Mm(across, out var width) || !Mm(down, out var height))
            why = $"\"{text}\" is no size of a label. Write its width and height in mm, such as 100x50.";
        else if (width < Narrowest || height < Lowest || Math.Max(width, height) > Longest)
            why = string.Create(CultureInfo.InvariantCulture, $"A label of {width:0.#} x {height:0.#} mm cannot be printed: it is at least {Narrowest} wide and {Lowest} high, so that its words can be read, and no side over {Longest}.");
        else
            paper = new(string.Create(CultureInfo.InvariantCulture, $"{width:0.#}x{height:0.#}"), width, height);
        return why.Length == 0;

        static bool Mm(string side, out double mm) => double.TryParse(side, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out mm);
    }

    /// <summary>For label stock, on a roll or one behind the other: a page of the label's own size for each.</summary>
    /// <param name="size">Of one label: see <see cref="TrySize"/>.</param>
    public static IEnumerable<Scene> OnStock(CuttingPlan plan, Paper size)
    {
        foreach (var label in plan.Groups.SelectMany(g => g.Bars.SelectMany(b => Of(b, plan.Rules.Units))))
        {
            // As on a sheet, as large as the stock allows.
            var scale = Math.Min(size.Width / 80, size.Height / Height);
            var canvas = new Canvas();
            Draw(canvas, new Box(0, 0, size.Width / scale, Height), label, isFramed: false);
            var figure = canvas.ToFigure(size.Width / scale, Height);
            var page = new Canvas();
            page.Place(figure, new Spot(0, (size.Height - (Height * scale)) / 2), scale);
            yield return new Scene(size, page.Marks) { Title = label.Name };
        }
    }

    /// <summary>The labels as a PDF: on sheets to cut apart, or, where the size of a label is given, on label stock.</summary>
    public static void WritePdf(Stream stream, CuttingPlan plan, Paper paper, Paper? label)
    {
        if (label is null)
            new Booklet("Labels", Of(plan, paper)).WritePdf(stream);
        else
            PdfWriter.Write(stream, "Labels", OnStock(plan, label));
    }

    public static IReadOnlyList<Page> Of(CuttingPlan plan, Paper paper)
    {
        var block = new TitleBlock("", "", "Labels for pieces and remnants") { Reader = Reader.Saw, Notice = plan.NotForFabrication.Count > 0 ? "NOT FOR FABRICATION" : "" };
        var labels = plan.Groups.SelectMany(g => g.Bars.SelectMany(b => Of(b, plan.Rules.Units))).ToList();
        var room = block.Content(paper);
        var columns = Math.Max(1, (int)((room.Width + Gap) / 82));
        var rows = Math.Max(1, (int)((room.Height + Gap) / (Height + Gap)));
        var width = (room.Width - ((columns - 1) * Gap)) / columns;
        return [.. labels.Chunk(columns * rows).Select(page => Page.Draw(paper, block, (canvas, box) =>
        {
            foreach (var (n, label) in page.Index())
                Draw(canvas, new Box(box.X + (n % columns * (width + Gap)), box.Y + (n / columns * (Height + Gap)), width, Height), label);
        }))];
    }

    private sealed record Label(string Name, string Length, string Pipe, string Heat, string Bar, string Ends, string Notice)
    {
        // Plain words: no program of ours is needed to read them.
        public string Words
        {
            get
            {
                var text = new StringBuilder();
                foreach (var line in (string[])[Name, Length, Pipe, Heat.Length > 0 ? $"heat {Heat}" : "", Bar, Notice])
                {
                    if (line.Length > 0)
                        text.Append(line).Append('\n');
                }

                return text.ToString().TrimEnd();
            }
        }
    }

    private static IEnumerable<Label> Of(CutBar bar, Units units)
    {
        var pipe = bar.Stock.Pipe.ToString();
        foreach (var (piece, _, _) in bar.Pieces)
        {
            yield return new(piece.FullName, In(units, piece.Length), pipe, bar.Stock.Heat, $"from bar {bar.Name}",
                piece.AtStart.Length + piece.AtEnd.Length > 0 ? $"ends: {piece.AtStart} / {piece.AtEnd}" : "", piece.NotForFabrication ? "NOT FOR FABRICATION" : "");
        }

        if (bar.KeptRemnant > 0)
            yield return new($"Remnant {bar.RemnantName}", CuttingPages.Kept(units, bar.KeptRemnant) + (units == Units.Inches ? "" : " mm"), pipe, bar.Stock.Heat, $"from bar {bar.Name}", "", "");
    }

    private static void Draw(Canvas canvas, Box box, Label label, bool isFramed = true)
    {
        // Cut apart along the frame; a label on stock has its edges.
        if (isFramed)
            canvas.Rectangle(box, LineStyle.Thin);
        var inside = box.Inset(2);
        var width = inside.Width - Code - 2;
        canvas.Place(QrFigure.Of(label.Words, Code), new Spot(inside.Right - Code, inside.Y));
        var y = inside.Y;
        Line(label.Name, TextStyle.Heading with { Height = 4.5 }, width);
        Line(label.Length, TextStyle.Heading with { Height = 4.5 }, width);
        Line(label.Pipe, TextStyle.Body with { Height = 3 }, width);
        Line(label.Heat.Length > 0 ? $"heat {label.Heat}" : "heat ____________", TextStyle.Body with { Height = 3 }, width);
        Line(label.Bar, TextStyle.Body with { Height = 3 }, width);
        Line(label.Notice.Length > 0 ? label.Notice : label.Ends, (label.Notice.Length > 0 ? TextStyle.Strong : TextStyle.Body) with { Height = 3 }, inside.Width);

        void Line(string text, TextStyle style, double room)
        {
            var fitting = style.Fitting(text, room);
            y += style.Height + 1.3;
            canvas.Text(text, inside.X, y, fitting);
            y += 0.6;
        }
    }

    private static string In(Units units, double mm) => units == Units.Inches ? LengthText.FeetInches(mm) : LengthText.Rounded(mm, 1).ToString("0.0 mm", CultureInfo.InvariantCulture);
}
