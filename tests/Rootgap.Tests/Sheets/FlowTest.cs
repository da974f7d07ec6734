using Rootgap.Sheets;
using UglyToad.PdfPig;

namespace Rootgap.Tests.Sheets;

public class FlowTest
{
    private static readonly Figure Symbol = new Canvas().Rectangle(new(0, 0, 30, 12)).Text("bevel", 15, 8, TextStyle.Small, Anchor.Middle).ToFigure(30, 12);

    private static readonly Gen<string> Words = Gen.Frequency(
        (6, Gen.String[Gen.Char["abc defgh 1234567890 é½Ø\"-/"], 0, 30]),
        (1, Gen.String[Gen.Char["abcdefgh"], 30, 90]),
        (1, Gen.String[Gen.Char["ab c\n"], 0, 400]),
        (1, Gen.Const("")));

    private static readonly Gen<Cell> Cells = Gen.Select(Words, Gen.Int[0, 9], (text, kind) => kind switch
    {
        0 => Cell.Box(text),
        1 => Cell.Warn(text),
        2 => new Cell(text) { Bold = true },
        3 => new Cell(text) { Figure = Symbol },
        _ => new Cell(text),
    });

    private static readonly Gen<Column> Columns = Gen.Select(Words.Select(w => w.Length > 20 ? w[..20] : w), Gen.Int[0, 4], Gen.Int[0, 2], (heading, kind, align) =>
        new Column(heading, kind switch { 0 => ColumnWidth.Share(), 1 => ColumnWidth.Share(3), 2 => ColumnWidth.Of(25), _ => ColumnWidth.Fit }, (Anchor)align));

    private static readonly Gen<Table> Tables =
        from columns in Columns.Array[1, 6]
        from rows in Gen.Select(Cells.Array[0, columns.Length], Gen.Bool, (cells, strong) => new Row(cells) { Strong = strong }).Array[0, 25]
        from small in Gen.Bool
        from height in Gen.Bool.Select(tall => tall ? 10.0 : 0)
        select new Table(columns, rows) { Style = small ? TextStyle.Small : TextStyle.Body, RowHeight = height };

    private static readonly Gen<Paper> Papers = Gen.Int[0, 3].Select(i => new[] { Paper.A5, Paper.A4, Paper.Letter, Paper.A4.Landscape }[i]);

    [Fact]
    public void No_text_of_a_table_leaves_its_cell_or_lies_on_another() =>
        Gen.Select(Tables, Papers, Gen.Int[0, 3]).Holds((table, paper, before) =>
        {
            var flow = new Flow(paper, SampleSheets.Block("Any table"));
            for (var i = 0; i < before; i++)
                flow.Heading("Heading").Paragraph("Some words before it, so that the table begins lower down on the page.").Space(20);
            flow.Table(table);
            foreach (var page in flow.Pages)
            {
                var (texts, lines) = (Drawn.TextBoxes(page.Marks), Drawn.Lines(page.Marks));
                var content = page.Block.Content(page.Paper);
                foreach (var (text, box) in texts)
                {
                    // Accents of a heading on the first line may reach into the 3 mm below the title block.
                    Assert.True(content.Holds(box, 1.5), $"'{text}' leaves the page");
                    Assert.DoesNotContain(lines, line => Crosses(line, box));
                }
                for (var i = 0; i < texts.Count; i++)
                {
                    for (var j = i + 1; j < texts.Count; j++)
                        Assert.False(texts[i].Box.Overlaps(texts[j].Box, 0.3), $"'{texts[i].Text}' lies on '{texts[j].Text}'");
                }
                Assert.All(lines, line => Assert.True(content.Holds(new(Math.Min(line.A.X, line.B.X), Math.Min(line.A.Y, line.B.Y), Math.Abs(line.A.X - line.B.X), Math.Abs(line.A.Y - line.B.Y)), 0.01)));
            }
        }, iter: 300);

    [Fact]
    public void Every_letter_of_a_table_is_on_the_pages() =>
        Gen.Select(Tables, Papers).Holds((table, paper) =>
        {
            var flow = new Flow(paper, SampleSheets.Block("Any table")).Table(table);
            var pages = flow.Pages;
            var headings = string.Concat(table.Columns.Select(c => c.Heading));
            var cells = table.Rows.IsEmpty ? table.WhenEmpty : string.Concat(table.Rows.SelectMany(r => r.Cells).Select(c => c.Text + (c.Figure is null ? "" : "bevel")));
            var expected = Letters(cells + string.Concat(Enumerable.Repeat(headings, pages.Count)));
            Assert.Equal(expected, Letters(string.Concat(pages.SelectMany(p => Drawn.Texts(p.Marks)).Select(t => t.Content))));
        }, iter: 200);

    [Fact]
    public void Sheets_are_numbered_through_all_parts_of_a_booklet()
    {
        using var stream = new MemoryStream();
        var booklet = SampleSheets.Packet(Paper.A4);
        booklet.WritePdf(stream);
        using var pdf = PdfDocument.Open(stream.ToArray());
        Assert.Equal(booklet.Pages.Length, pdf.NumberOfPages);
        for (var i = 1; i <= pdf.NumberOfPages; i++)
        {
            var words = string.Join(' ', pdf.GetPage(i).GetWords().Select(w => w.Text));
            Assert.Contains($"{i} of {pdf.NumberOfPages}", words, StringComparison.Ordinal);
            Assert.Contains("12-P-1042-A1A", words, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void The_heading_of_a_table_is_repeated_on_each_page()
    {
        var pages = SampleSheets.CutList(Paper.Letter, 90).Pages;
        Assert.InRange(pages.Count, 3, 6);
        Assert.All(pages, page => Assert.Single(Drawn.Texts(page.Marks), t => t.Content is "Heat number"));
    }

    [Fact]
    public void A_heading_never_stands_alone_at_the_foot_of_a_page()
    {
        for (var space = 0; space < 240; space += 3)
        {
            var flow = new Flow(Paper.A4, SampleSheets.Block("Any"));
            flow.Paragraph("Top").Space(space).Heading("Alone?").Heading("Below", 2).Table(new Table(["Column"], [new Row("first"), new Row("second")]));
            foreach (var page in flow.Pages)
            {
                var words = Drawn.Texts(page.Marks).Select(t => t.Content).ToList();
                Assert.Equal(words.Contains("Alone?"), words.Contains("Below"));
                Assert.True(!words.Contains("Below") || words.Contains("first"), $"after {space} mm");
            }
        }
    }

    [Fact]
    public void A_notice_stands_on_every_page()
    {
        var flow = new Flow(Paper.A5, SampleSheets.Block("Any") with { Notice = "NOT FOR FABRICATION" });
        for (var i = 0; i < 40; i++)
            flow.Paragraph("A line of text that fills the page in the end.");
        var scenes = flow.ToScenes();
        Assert.InRange(scenes.Count, 2, 5);
        Assert.All(scenes, scene => Assert.Single(Drawn.Texts(scene.Marks), t => t.Content is "NOT FOR FABRICATION"));
    }

    [Fact]
    public void Nothing_of_the_sample_leaves_the_paper_or_lies_in_the_title_block()
    {
        foreach (var paper in new[] { Paper.A5, Paper.A4, Paper.Letter, Paper.A4.Landscape })
        {
            foreach (var page in SampleSheets.Packet(paper).Pages)
            {
                var content = page.Block.Content(page.Paper);
                Assert.All(Drawn.TextBoxes(page.Marks), t => Assert.True(content.Holds(t.Box, 1.5), t.Text));
                var whole = page.Numbered(1, 100);
                Assert.All(Drawn.TextBoxes(whole.Marks), t => Assert.True(paper.Larger.Landscape.Box.Holds(t.Box) || paper.Box.Holds(t.Box), t.Text));
            }
        }
    }

    [Fact]
    public void A_long_drawing_number_stays_whole_in_the_title_block()
    {
        var block = new TitleBlock("UNIT-300-AREA-12-COOLING-WATER-RETURN-6-CWR-1042-A1A-H50-SHEET-01", "0A", "A title that is so long that it does not fit on one line of the sheet and needs a second one")
        {
            Project = "A client with a very long name, and a plant with a longer one, in a town with the longest of them all",
        };
        var canvas = new Canvas();
        block.Draw(canvas, Paper.A5, 1, 1000);
        Assert.Contains(block.Drawing, string.Concat(Drawn.Texts(canvas.Marks).Select(t => t.Content)), StringComparison.Ordinal);
        var (texts, lines) = (Drawn.TextBoxes(canvas.Marks), Drawn.Lines(canvas.Marks));
        Assert.All(texts, t => Assert.DoesNotContain(lines, line => Crosses(line, t.Box)));
    }

    [Fact]
    public void Parts_that_belong_together_stay_on_one_page()
    {
        var flow = new Flow(Paper.A4, SampleSheets.Block("Any")).Paragraph("Top").Space(170)
            .Together(part => part.Paragraph("First").Space(60).Paragraph("Last"));
        Assert.Equal(2, flow.Pages.Count);
        Assert.Equal("First, Last", string.Join(", ", Drawn.Texts(flow.Pages[1].Marks).Select(t => t.Content)));
    }

    [Fact]
    public void Columns_that_are_longer_than_a_page_follow_one_another()
    {
        var flow = new Flow(Paper.A5, SampleSheets.Block("Any")).Beside((1, left => left.Steps(Enumerable.Repeat("Left", 60))), (1, right => right.Paragraph("Right")));
        Assert.InRange(flow.Pages.Count, 3, 6);
        Assert.Equal(60, flow.Pages.SelectMany(p => Drawn.Texts(p.Marks)).Count(t => t.Content is "Left"));
        Assert.Single(Drawn.Texts(flow.Pages[^1].Marks), t => t.Content is "Right");
    }

    [Fact]
    public void A_figure_larger_than_the_page_is_made_smaller()
    {
        var large = new Canvas().Rectangle(new(0, 0, 900, 400)).ToFigure(900, 400);
        var page = Assert.Single(new Flow(Paper.A5, SampleSheets.Block("Any")).Figure(large, "A wide one").Pages);
        var lines = Drawn.Lines(page.Marks);
        Assert.Equal(page.Block.Content(Paper.A5).Width, lines.Max(l => l.A.X) - lines.Min(l => l.A.X), 0.001);
        Assert.Equal(400.0 / 900, (lines.Max(l => l.A.Y) - lines.Min(l => l.A.Y)) / (lines.Max(l => l.A.X) - lines.Min(l => l.A.X)), 6);
    }

    private static string Letters(string text) => string.Concat(text.Where(c => !char.IsWhiteSpace(c)).Order());

    // A level or upright line that runs through a box, not along its edge.
    private static bool Crosses((Spot A, Spot B) line, Box box)
    {
        var middle = box.Inset(0.3);
        return middle.Width > 0 && new Box(Math.Min(line.A.X, line.B.X), Math.Min(line.A.Y, line.B.Y), Math.Abs(line.A.X - line.B.X), Math.Abs(line.A.Y - line.B.Y)).Overlaps(middle, -1e-9);
    }
}
