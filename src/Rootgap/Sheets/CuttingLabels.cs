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
            yield return new($"Remnant {bar.RemnantName}", In(units, units == Units.Inches ? Math.Floor((bar.KeptRemnant / LengthText.Inch * 16) + 1e-6) / 16 * LengthText.Inch : Math.Floor((bar.KeptRemnant * 10) + 1e-6) / 10), pipe, bar.Stock.Heat, $"from bar {bar.Name}", "", "");
    }

    private static void Draw(Canvas canvas, Box box, Label label)
    {
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
