using System.Globalization;
using System.Text;
using System.Xml.Linq;
using Rootgap.Sheets;
using UglyToad.PdfPig;
using UglyToad.PdfPig.Fonts.TrueType;
using UglyToad.PdfPig.Fonts.TrueType.Parser;

namespace Rootgap.Tests.Sheets;

public class WritersTest
{
    private const double Point = 25.4 / 72;

    private static byte[] Pdf(params IEnumerable<Scene> scenes)
    {
        using var stream = new MemoryStream();
        PdfWriter.Write(stream, "Title with (brackets) and é", scenes);
        return stream.ToArray();
    }

    private static Scene Page(Action<Canvas> draw, Paper? paper = null)
    {
        var canvas = new Canvas();
        draw(canvas);
        return canvas.ToScene(paper ?? Paper.A4, "A page");
    }

    // Source: ISO 216 (A sizes) and ANSI/ASME Y14.1 (8.5 x 11, 11 x 17 inches), read back by PdfPig.
    [Theory]
    [InlineData("A5", 148, 210)]
    [InlineData("A4", 210, 297)]
    [InlineData("a3", 297, 420)]
    [InlineData("Letter", 8.5 * 25.4, 11 * 25.4)]
    [InlineData("tabloid", 11 * 25.4, 17 * 25.4)]
    public void Pages_have_the_size_of_the_paper_either_way_round(string name, double width, double height)
    {
        var paper = Paper.Find(name)!;
        using var pdf = PdfDocument.Open(Pdf(Page(_ => { }, paper), Page(_ => { }, paper.Landscape)));
        Assert.Equal((width, height), (pdf.GetPage(1).Width * Point, pdf.GetPage(1).Height * Point), Near);
        Assert.Equal((height, width), (pdf.GetPage(2).Width * Point, pdf.GetPage(2).Height * Point), Near);

        var svg = XDocument.Parse(SvgWriter.Write(Page(_ => { }, paper))).Root!;
        Assert.Equal(width, double.Parse(svg.Attribute("width")!.Value.Replace("mm", "", StringComparison.Ordinal), CultureInfo.InvariantCulture), 0.001);
        Assert.EndsWith("mm", svg.Attribute("height")!.Value, StringComparison.Ordinal);
    }

    // Source: PdfPig's letters, which it finds by following the file's own transformations and widths.
    [Theory]
    [InlineData(Anchor.Start, 0.0)]
    [InlineData(Anchor.Middle, 0.0)]
    [InlineData(Anchor.End, 0.0)]
    [InlineData(Anchor.Start, 0.7)]
    [InlineData(Anchor.Middle, -1.2)]
    public void Text_stands_where_it_was_put_and_is_as_wide_as_was_measured(Anchor anchor, double turn)
    {
        var style = new TextStyle(5, Bold: true);
        var at = new Spot(90, 120);
        using var pdf = PdfDocument.Open(Pdf(Page(c => c.Group("g", null, Placement.Scale(1.5).Then(Placement.Move(10, -20)), g => g.Text("Spool-Ø12½", at, style, anchor, turn)))));
        var page = pdf.GetPage(1);
        var letters = page.Letters;
        Assert.Equal("Spool-Ø12½", string.Concat(letters.Select(l => l.Value)));

        var lead = anchor switch { Anchor.Middle => 0.5, Anchor.End => 1, _ => 0 } * style.Width("Spool-Ø12½");
        var start = at.Polar(-lead, turn);
        var end = start.Polar(style.Width("Spool-Ø12½"), turn);
        Assert.Equal((10 + (1.5 * start.X), -20 + (1.5 * start.Y)), (letters[0].StartBaseLine.X * Point, Paper.A4.Height - (letters[0].StartBaseLine.Y * Point)), Near);
        Assert.Equal((10 + (1.5 * end.X), -20 + (1.5 * end.Y)), (letters[^1].EndBaseLine.X * Point, Paper.A4.Height - (letters[^1].EndBaseLine.Y * Point)), Near);
    }

    [Fact]
    public void Lines_stand_in_the_pdf_where_they_were_put()
    {
        using var pdf = PdfDocument.Open(Pdf(Page(c => c.Line(20, 30, 120, 80, LineStyle.Thick with { Ink = Ink.Accent }))));
        var path = Assert.Single(pdf.GetPage(1).Paths);
        var box = path.GetBoundingRectangle()!.Value;
        Assert.Equal((20.0, 297 - 80.0), (box.Left * Point, box.Bottom * Point), Near);
        Assert.Equal((120.0, 297 - 30.0), (box.Right * Point, box.Top * Point), Near);
        Assert.True(path.IsStroked);
    }

    // Source: the box of the same letter in the whole font file, as PdfPig reads it. É and ½ are made of parts.
    [Fact]
    public void Letters_made_of_parts_keep_their_parts_in_the_font_that_goes_into_the_file()
    {
        var whole = TrueTypeFontParser.Parse(new TrueTypeDataBytes(File.ReadAllBytes(Repository.At("src", "Rootgap", "Sheets", "Fonts", "DejaVuSansCondensed.ttf"))));
        var style = TextStyle.Title with { Bold = false };
        using var pdf = PdfDocument.Open(Pdf(Page(c => c.Text("É½Åg", 20, 50, style))));
        var letters = pdf.GetPage(1).Letters;
        foreach (var letter in letters)
        {
            Assert.True(whole.TryGetBoundingBox(letter.Value[0], out var box));
            Assert.Equal(box.Height * style.Em / 2048, letter.BoundingBox.Height * Point, 0.01);
            Assert.Equal(box.Width * style.Em / 2048, letter.BoundingBox.Width * Point, 0.01);
        }
        Assert.Equal(4, letters.Count);
    }

    [Fact]
    public void The_same_sheets_give_the_same_bytes_and_others_give_another_file_id()
    {
        var first = Pdf(SampleSheets.Packet(Paper.A4).Scenes());
        Assert.Equal(first, Pdf(SampleSheets.Packet(Paper.A4).Scenes()));
        Assert.Equal(Svg(SampleSheets.Packet(Paper.A4)), Svg(SampleSheets.Packet(Paper.A4)));

        Assert.NotEqual(FileId(first), FileId(Pdf(SampleSheets.Packet(Paper.Letter).Scenes())), StringComparer.Ordinal);
        Assert.DoesNotContain("CreationDate", Encoding.Latin1.GetString(first), StringComparison.Ordinal);

        static string Svg(Booklet booklet) => string.Concat(booklet.Scenes().Select(SvgWriter.Write));

        static string FileId(byte[] pdf)
        {
            var text = Encoding.Latin1.GetString(pdf);
            return text.Substring(text.LastIndexOf("/ID[<", StringComparison.Ordinal), 70);
        }
    }

    // 1,100 pages: three levels of the page tree.
    [Fact]
    public void Every_page_of_a_long_document_is_found()
    {
        using var pdf = PdfDocument.Open(Pdf(Enumerable.Range(1, 1100).Select(i => Page(c => c.Text($"Page{i}", 20, 20), Paper.A5))));
        Assert.Equal(1100, pdf.NumberOfPages);
        foreach (var i in new[] { 1, 32, 33, 1024, 1025, 1100 })
            Assert.Equal($"Page{i}", Assert.Single(pdf.GetPage(i).GetWords()).Text);
    }

    [Fact]
    public void Sections_are_in_the_outline_and_lead_to_their_pages()
    {
        var scenes = new[]
        {
            Page(_ => { }) with { Bookmarks = [new("Cover"), new("Findings (2)", 2, 100), new("Æther", 2)] },
            Page(_ => { }),
            Page(_ => { }) with { Bookmarks = [new("Spool 1"), new("Cuts", 3), new("Spool 2")] },
        };
        using var pdf = PdfDocument.Open(Pdf(scenes));
        Assert.True(pdf.TryGetBookmarks(out var outline));
        Assert.Equal("Cover, Spool 1, Spool 2", string.Join(", ", outline.Roots.Select(r => r.Title)));
        Assert.Equal("Findings (2), Æther", string.Join(", ", outline.Roots[0].Children.Select(r => r.Title)));
        Assert.Equal("Cuts", Assert.Single(outline.Roots[1].Children).Title);
        Assert.Equal([1, 3, 3], outline.Roots.Cast<UglyToad.PdfPig.Outline.DocumentBookmarkNode>().Select(r => r.PageNumber));
        Assert.Equal("Title with (brackets) and é", pdf.Information.Title);
    }

    [Fact]
    public void Booklets_one_after_the_other_are_sections_of_one_file()
    {
        var booklets = new[] { SampleSheets.Packet(Paper.A4) with { Title = "First" }, SampleSheets.Packet(Paper.A5) with { Title = "Second" } };
        using var pdf = PdfDocument.Open(Pdf(booklets.SelectMany(b => b.Section())));
        Assert.True(pdf.TryGetBookmarks(out var outline));
        Assert.Equal("First, Second", string.Join(", ", outline.Roots.Select(r => r.Title)));
        Assert.Equal("Cover and findings, Spool SP-02, Cut list, Fit-up card, weld W2", string.Join(", ", outline.Roots[1].Children.Select(r => r.Title)));
        var findings = Assert.Single(outline.Roots[0].Children[0].Children);
        Assert.Equal("Findings: Before the first cut, Tick when done", findings.Title + ": " + string.Join(", ", findings.Children.Select(r => r.Title)));
        Assert.Contains("1 of " + booklets[1].Pages.Length, string.Join(' ', pdf.GetPage(booklets[0].Pages.Length + 1).GetWords().Select(w => w.Text)), StringComparison.Ordinal);
    }

    [Fact]
    public void An_empty_document_still_opens()
    {
        using var pdf = PdfDocument.Open(Pdf());
        Assert.Equal(0, pdf.NumberOfPages);
    }

    [Fact]
    public void Svg_is_sound_whatever_is_written_into_it() =>
        Gen.Select(Gen.String, Gen.String, Gen.String).Holds((content, id, name) =>
        {
            var scene = Page(c => c.Text(content, new(10, 10), id: id, @class: name)) with { Title = content };
            var svg = XDocument.Parse(SvgWriter.Write(scene), LoadOptions.PreserveWhitespace);
            if (content.Length == 0)
                return;
            var text = Assert.Single(svg.Descendants(), e => e.Name.LocalName is "text");
            Assert.Equal(new Text(content, default, TextStyle.Body).Content, text.Value);
            if (id.All(c => c is >= ' ' and <= '~'))
                Assert.Equal(id, text.Attribute("id")!.Value);
        });

    [Fact]
    public void Svg_bears_ids_and_classes_for_the_app()
    {
        var svg = XDocument.Parse(SvgWriter.Write(SampleSheets.Drawing(Paper.A3).Numbered(1, 1)));
        var spool = Assert.Single(svg.Descendants(), e => e.Attribute("id")?.Value is "SP-02");
        Assert.Equal("spool", spool.Attribute("class")!.Value);
        Assert.Equal("weld", Assert.Single(spool.Descendants(), e => e.Attribute("id")?.Value is "W1").Attribute("class")!.Value);
    }

    // Two writers, one scene: each text of the SVG (with the transformations of its groups) against the letters that PdfPig finds.
    [Fact]
    public void Svg_and_pdf_put_the_same_words_in_the_same_places()
    {
        foreach (var paper in new[] { Paper.A4, Paper.Letter, Paper.A5 })
        {
            var scenes = SampleSheets.Packet(paper).Scenes().ToList();
            using var pdf = PdfDocument.Open(Pdf(scenes));
            for (var p = 0; p < scenes.Count; p++)
            {
                var inSvg = SvgTexts(XDocument.Parse(SvgWriter.Write(scenes[p])).Root!, Placement.None).ToList();
                var letters = pdf.GetPage(p + 1).Letters;
                Assert.Equal(string.Concat(inSvg.Select(t => t.Text)), string.Concat(letters.Select(l => l.Value)));
                var next = 0;
                foreach (var (text, start, end) in inSvg)
                {
                    var (first, last) = (letters[next], letters[next + text.Length - 1]);
                    next += text.Length;
                    Assert.Equal((start.X, start.Y), (first.StartBaseLine.X * Point, scenes[p].Paper.Height - (first.StartBaseLine.Y * Point)), Near);
                    Assert.Equal((end.X, end.Y), (last.EndBaseLine.X * Point, scenes[p].Paper.Height - (last.EndBaseLine.Y * Point)), Near);
                }
            }
        }
    }

    // Source: contrast after WCAG 2.1, success criterion 1.4.3: at least 4.5 to 1 for text.
    [Fact]
    public void The_accent_reads_on_white_and_in_black_and_white()
    {
        Assert.InRange(1.05 / (Luminance(Ink.Accent) + 0.05), 4.5, 21);
        Assert.InRange(1.05 / (Luminance(Ink.Grey) + 0.05), 4.5, 21);

        static double Luminance(Ink ink) => (0.2126 * Linear(ink.Red)) + (0.7152 * Linear(ink.Green)) + (0.0722 * Linear(ink.Blue));
        static double Linear(byte channel) => channel / 255.0 is var c && c <= 0.03928 ? c / 12.92 : Math.Pow((c + 0.055) / 1.055, 2.4);
    }

    [Fact]
    public void A_place_that_is_no_number_is_refused()
    {
        var scene = Page(c => c.Line(0, 0, double.NaN, 5));
        Assert.Throws<ArgumentOutOfRangeException>(() => SvgWriter.Write(scene));
        Assert.Throws<ArgumentOutOfRangeException>(() => Pdf(scene));
    }

    [Fact]
    public void An_arc_keeps_its_radius() =>
        Gen.Select(Gen.Double[1, 200], Gen.Double[-7, 7], Gen.Double[-6.28, 6.28]).Where(t => Math.Abs(t.Item3) > 0.01).Holds((radius, from, sweep) =>
        {
            var centre = new Spot(30, 40);
            var at = default(Spot);
            foreach (var s in Shape.Arc(centre, radius, from, sweep).Segments)
            {
                for (var t = 0.0; s.Step == Step.Curve && t <= 1; t += 0.1)
                    Assert.Equal(radius, Bezier(at, s, t).To(centre), radius * 3e-4);
                at = s.To;
            }
            Assert.Equal(0, at.To(centre.Polar(radius, from + sweep)), 1e-6);
        });

    private static Spot Bezier(Spot a, Segment s, double t)
    {
        var (p, q, r) = (a.Toward(s.Control1, t), s.Control1.Toward(s.Control2, t), s.Control2.Toward(s.To, t));
        return p.Toward(q, t).Toward(q.Toward(r, t), t);
    }

    private static IEnumerable<(string Text, Spot Start, Spot End)> SvgTexts(XElement element, Placement outside)
    {
        var placement = outside;
        if (element.Attribute("transform")?.Value is { } transform)
        {
            // The first one listed is the outermost.
            foreach (var part in transform.Split(") "))
            {
                var words = part.Split('(');
                var n = words[1].TrimEnd(')').Split(' ').Select(w => double.Parse(w, CultureInfo.InvariantCulture)).ToArray();
                var inner = words[0] switch
                {
                    "translate" => Placement.Move(n[0], n[1]),
                    "rotate" => Placement.Turn(n[0] * Math.PI / 180),
                    _ => new Placement(n[0], n[1], n[2], n[3], n[4], n[5]),
                };
                placement = inner.Then(placement);
            }
        }
        if (element.Name.LocalName is "text")
        {
            double Number(string name) => double.Parse(element.Attribute(name)?.Value ?? "0", CultureInfo.InvariantCulture);
            var lead = element.Attribute("text-anchor")?.Value switch { "middle" => Number("textLength") / 2, "end" => Number("textLength"), _ => 0 };
            var start = new Spot(Number("x") - lead, Number("y"));
            yield return (element.Value, placement.Of(start), placement.Of(start.Moved(Number("textLength"), 0)));
        }
        foreach (var inner in element.Elements())
        {
            foreach (var text in SvgTexts(inner, placement))
                yield return text;
        }
    }

    // A hundredth of a millimetre.
    private static bool Near((double X, double Y) a, (double X, double Y) b) => Math.Abs(a.X - b.X) < 0.01 && Math.Abs(a.Y - b.Y) < 0.01;
}
