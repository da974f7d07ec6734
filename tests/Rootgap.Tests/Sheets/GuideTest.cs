using System.Runtime.CompilerServices;
using Rootgap.Sheets;
using UglyToad.PdfPig;

namespace Rootgap.Tests.Sheets;

public class GuideTest
{
    [Fact]
    public void The_example_of_the_guide_builds_and_gives_two_sheets()
    {
        using var stream = new MemoryStream();
        // The guide shows the lines from here
        var block = new TitleBlock("12-P-1042", "B", "Cut list") { Project = "Unit 3", Notice = "NOT FOR FABRICATION" };
        var cuts = new Flow(Paper.A4, block)
            .Heading("Spool SP-02")
            .Paragraph("Lengths are from end to end after bevelling; the gap is already taken off.")
            .Table(new Table(
                ["Piece", new("Sum", ColumnWidth.Share()), new("Cut, mm", Anchor.End), "Heat number", "Done"],
                [new Row("P1", "1247 − 228.6 − 3.2", "1015.2", "", Cell.Box()) { Id = "P1" }])
            { RowHeight = 10 })
            .Warning("Hot work needs the site's permit.");
        var spool = Page.Draw(Paper.A3.Landscape, block with { Title = "Spool SP-02" }, (canvas, area) =>
            canvas.Line(area.X + 20, area.Bottom - 20, area.X + 90, area.Bottom - 60, LineStyle.Thick));
        new Booklet("12-P-1042 B", [.. cuts.Pages, spool]).WritePdf(stream);
        // to here.

        using var pdf = PdfDocument.Open(stream.ToArray());
        Assert.Equal(2, pdf.NumberOfPages);
        Assert.Contains("1015.2", pdf.GetPage(1).GetWords().Select(w => w.Text), StringComparer.Ordinal);
        Assert.Equal(Between(File.ReadAllText(Source()), "lines from here\n", "// to here."), Between(File.ReadAllText(Repository.At("docs", "sheets.md")), "```csharp\n", "```"), StringComparer.Ordinal);
    }

    private static string Between(string text, string from, string to)
    {
        var start = text.IndexOf(from, StringComparison.Ordinal) + from.Length;
        return string.Join('\n', text[start..text.IndexOf(to, start, StringComparison.Ordinal)].Split('\n').Select(line => line.Trim()));
    }

    private static string Source([CallerFilePath] string here = "") => here;
}
