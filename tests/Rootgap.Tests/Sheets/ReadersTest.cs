using System.Globalization;
using System.Text.RegularExpressions;
using Rootgap.Measure;
using Rootgap.Packets;
using Rootgap.Sheets;
using Rootgap.Tests.Samples;
using Rootgap.Tests.Sheets.Isometrics;
using UglyToad.PdfPig;

namespace Rootgap.Tests.Sheets;

/// <summary>The packet by persons: bound by reader, numbered through, each reader's pages alone the same as in the whole.</summary>
public partial class ReadersTest
{
    private static List<string> PagesOf(IEnumerable<Packet> packets, Reader who)
    {
        using var pdf = new MemoryStream();
        using var files = new Rootgap.Packets.PacketFiles("test", Paper.A4, name => name.EndsWith(".pdf", StringComparison.Ordinal) ? pdf : new MemoryStream(), who);
        foreach (var packet in packets)
            Assert.Empty(files.Add(PacketPart.Of(packet, Paper.A4, who)));
        Assert.Empty(files.Close());
        using var read = PdfDocument.Open(pdf.ToArray());
        // In the order in which it was drawn: the tab first.
        return [.. read.GetPages().Select(p => p.Text)];
    }

    private static List<Packet> Some => [.. SampleFile.Clean.Where(s => s.Name is "chilled-supply" or "compressed-air").Select(s => s.Packet())];

    [Fact]
    public void The_packet_is_bound_by_reader_and_the_cover_says_which_pages_are_whose()
    {
        var pages = PagesOf(Some, Reader.All);
        for (var i = 0; i < pages.Count; i++)
            Assert.Contains($"sheet {i + 1} of {pages.Count}", pages[i], StringComparison.Ordinal);
        string[] order = ["ALL", "FOREMAN, SITE", "SAW", "STORE", "FITTER", "WELDER, INSPECTOR", "SITE"];
        Assert.DoesNotContain(pages, p => !order.Any(t => p.StartsWith(t, StringComparison.Ordinal)));
        var tabs = pages.Select(p => order.First(t => p.StartsWith(t, StringComparison.Ordinal))).ToList();
        Assert.Equal(order, tabs.Distinct(), StringComparer.Ordinal);
        Assert.Equal(tabs.OrderBy(t => Array.IndexOf(order, t)), tabs, StringComparer.Ordinal);
        Assert.Single(tabs, t => t == "ALL");
        foreach (var tab in order.Skip(1))
        {
            var (first, count) = (tabs.IndexOf(tab) + 1, tabs.Count(t => t == tab));
            Assert.Contains(count == 1 ? $"{first}1" : $"{first} – {first + count - 1}{count}", pages[0], StringComparison.Ordinal);
        }
    }

    [Theory]
    [InlineData(Reader.Saw)]
    [InlineData(Reader.Store)]
    [InlineData(Reader.Fitter)]
    [InlineData(Reader.Inspector)]
    public void A_reader_alone_gets_the_pages_that_are_his_in_the_whole(Reader who)
    {
        static string WithoutNumber(string page) => SheetNumber().Replace(page, "");
        var whole = PagesOf(Some, Reader.All).Where(p => p.StartsWith(who.Tab(), StringComparison.Ordinal)).Select(WithoutNumber);
        Assert.Equal(whole, PagesOf(Some, who).Select(WithoutNumber), StringComparer.Ordinal);
    }

    [Fact]
    public void The_saw_has_every_piece_of_all_drawings_once_and_with_its_length()
    {
        var packets = Some;
        var words = string.Join(' ', PagesOf(packets, Reader.Saw).Where(p => p.Contains("Cut list", StringComparison.Ordinal)));
        foreach (var packet in packets)
        {
            foreach (var cut in packet.Fabrication.Cuts)
                Assert.Single(Regex.Matches(words, $"{Regex.Escape(packet.Drawing.Number)}  {Regex.Escape(cut.Piece)}{Regex.Escape(LengthText.In(packet.Drawing.Units, cut.SawLength))}[a-z]", RegexOptions.None, TimeSpan.FromSeconds(10)));
        }
    }

    [Fact]
    public void The_printed_terms_of_a_sum_add_up_to_the_printed_total() =>
        Gens.Sketches.Holds(s =>
        {
            var packet = s.Packet();
            var isInches = packet.Drawing.Units == Units.Inches;
            foreach (var cut in packet.Fabrication.Cuts)
                AddsUp(SumWords.Parts(cut, packet.Drawing.Units), cut.Length, isInches);
        }, iter: 60, print: s => s.Yaml());

    // The pieces of a mitred bend lie heel to throat in one pipe: by hand (mm) ends of 305 tan 15 + 80, middle pieces of twice 305 tan 15, less three gaps of 3.2, with three cuts of the saw.
    [Theory]
    [InlineData("mm", "mitred bend, cuts: 3, bend radius: 305, straight: 80")]
    [InlineData("mm", "mitred bend, cuts: 2, bend radius: 457, straight: 0")]
    [InlineData("in", "mitred bend, cuts: 3, bend radius: 12, straight: 3")]
    [InlineData("mm", "bend, bend radius: 381, straight: 100")]
    [InlineData("in", "bend, bend radius: 15, straight: 4 1/8")]
    public void The_blank_of_a_bend_that_the_shop_makes_is_the_sum_of_its_printed_pieces(string units, string bend)
    {
        var isInches = units == "in";
        var packet = Given.Run(units, "size: 6, schedule: 40, class: 150", isInches ? "root gap: 0.125" : "root gap: 3.2, kerf: 3", "flange", $"{{go: north, by: {(isInches ? "80" : "2000")}, to: {bend}}}", $"{{go: east, by: {(isInches ? "80" : "2000")}, to: flange}}");
        var made = Assert.Single(packet.Fabrication.MadeBends).Bend;
        var (terms, total) = SumWords.Parts(made, packet.Drawing.Units);
        AddsUp((terms, total), made.PipeLength, isInches);
        var words = string.Join(' ', new Booklet("spool", SpoolSheet.Of(packet.ToJob(Paper.A4), new Rootgap.FitUp.FitJoints(packet.Fabrication), Assert.Single(packet.Fabrication.Spools))).Scenes().SelectMany(s => new SvgReader(SvgWriter.Write(s)).Texts).Select(t => t.Text));
        Assert.Contains($"{terms} = {total}", words, StringComparison.Ordinal);
        Assert.Contains(LengthText.In(packet.Drawing.Units, made.PipeLength), words, StringComparison.Ordinal);
        // Each of its welds is read, and has no card.
        Assert.Equal(made.IsMitred, words.Contains($"A{made.Cuts}: gap at heel, throat, sides", StringComparison.Ordinal));
        if (units == "mm" && made.Cuts == 3)
            Assert.Equal("2 × 161.72 + 2 × 163.45 − 3 × gap 3.2 + 3 × saw cut 3.11 = 650.07", $"{terms} = {total}");
    }

    private static void AddsUp((string Terms, string Total) printed, double length, bool isInches)
    {
        // Read by rules of its own: a sign, perhaps "2 ×", words, a figure.
        var sum = 0m;
        foreach (var term in SumSign().Split(" + " + printed.Terms).Skip(1).Chunk(2))
        {
            var figure = Figure().Match(term[1]);
            Assert.True(figure.Success, term[1]);
            var times = Times().Match(term[1]) is { Success: true } m ? decimal.Parse(m.Groups[1].Value, CultureInfo.InvariantCulture) : 1;
            sum += (term[0] == "−" ? -1 : 1) * times * Value(figure.Groups[1].Value, isInches);
        }

        Assert.Equal(Value(printed.Total, isInches), sum);
        Assert.Equal(length / (isInches ? 25.4 : 1), (double)sum, isInches ? 1.001 / 32 : 0.06);
    }

    // Feet, inches and fractions of them, or millimetres, as exact decimals of inches in 1/640 or of mm.
    private static decimal Value(string words, bool isInches)
    {
        words = words.Trim().TrimEnd('"', '†');
        var minus = words.StartsWith('−') || words.StartsWith('-');
        words = words.TrimStart('−', '-');
        if (!isInches)
            return (minus ? -1 : 1) * decimal.Parse(words, CultureInfo.InvariantCulture);
        var value = 0m;
        if (words.Split("'-") is [var feet, var rest])
            (value, words) = (12 * decimal.Parse(feet, CultureInfo.InvariantCulture), rest);
        foreach (var part in words.Split(' ', StringSplitOptions.RemoveEmptyEntries))
            value += part.Split('/') is [var above, var below] ? decimal.Parse(above, CultureInfo.InvariantCulture) / decimal.Parse(below, CultureInfo.InvariantCulture) : decimal.Parse(part, CultureInfo.InvariantCulture);
        return minus ? -value : value;
    }

    // Whoever has the second page of a list in hand knows of which size and drawing its first rows are.
    [Theory]
    [InlineData("Cut list", "NPS .+ schedule .+")]
    [InlineData("Joint register", ".+ revision .+: .+")]
    public void Each_page_of_a_list_begins_with_the_heading_of_its_group(string title, string heading)
    {
        var lists = new JobPages();
        foreach (var sample in SampleFile.Clean)
            lists.Add(sample.Packet().ToJob(Paper.A4));
        var pages = lists.Lists(Paper.A4, Reader.All).Where(p => p.Block.Title == title).ToList();
        Assert.True(pages.Count > 1, "one page");
        var goOn = 0;
        foreach (var page in pages.Skip(1))
        {
            // Below the page's head and the columns' heads, which may have a second line.
            var rows = new SheetReader(SvgWriter.Write(page.Numbered(1, 1))).Words.GroupBy(w => Math.Round(w.Corners[3].Y)).OrderBy(g => g.Key).Select(g => g.Select(w => w.Text).ToList()).ToList();
            var columns = rows.FindIndex(r => r.Contains("piece") || r.Contains("joint"));
            var first = Assert.Single(rows.Skip(columns + 1).First(r => r is not ["number" or "holes"]));
            Assert.Matches("^" + heading + "$", first);
            goOn += first.EndsWith(", continued", StringComparison.Ordinal) ? 1 : 0;
        }

        Assert.True(goOn > 0, "no group goes on over a page");
    }

    [Fact]
    public void A_piece_that_cannot_be_cut_has_no_length_on_the_saws_list()
    {
        // Two long-radius elbows NPS 6 take 2 × 229 mm (ASME B16.9): 440 leaves less than nothing.
        var packet = Given.Millimetres("size: 6, schedule: 40, class: 150", "flange", "{go: north, by: 1500, to: elbow}", "{go: up, by: 440, to: elbow}", "{go: east, by: 1500, to: flange}");
        var cut = packet.Fabrication.Cuts.Single(c => c.Length < 0);
        var words = string.Join(' ', PagesOf([packet], Reader.Saw));
        Assert.Contains($"{cut.Piece}cannot be cut", words, StringComparison.Ordinal);
        Assert.DoesNotContain(LengthText.Millimetres(cut.Length, 1), words, StringComparison.Ordinal);
        Assert.Contains("NOT FOR FABRICATION", words, StringComparison.Ordinal);
    }

    [Fact]
    public void A_branch_weld_is_registered_with_both_sizes_and_both_walls()
    {
        // Walls by ASME B36.10: NPS 6 schedule 40 7.11 mm, NPS 2 schedule 80 5.54 mm.
        var packet = Given.Packet("""
            drawing: B-1
            units: mm
            line: {size: 6, schedule: 40, class: 150}
            runs:
              - run: main
                start: {to: flange, at: {east: 0, north: 0, up: 0}}
                legs:
                  - {go: north, by: 1500, to: stub-in, name: S1, branch: up, size: 2}
                  - {go: north, by: 1500, to: flange}
              - run: branch
                schedule: 80
                start: {from: S1}
                legs:
                  - {go: up, by: 800, to: flange}
            """);
        var joint = packet.Fabrication.Route.Joints.Single(j => j.Kind == Rootgap.Routes.JointKind.Branch);
        Assert.Equal(("6 × 2", "7.11 × 5.54"), JointRegister.SizeAndWall(packet.Fabrication, joint));
    }

    [GeneratedRegex(@"sheet \d+ of \d+")]
    private static partial Regex SheetNumber();

    [GeneratedRegex(@" ([+−]) ")]
    private static partial Regex SumSign();

    [GeneratedRegex(@"^(\d+) × ")]
    private static partial Regex Times();

    [GeneratedRegex("""((?:−?\d+'-)?(?:−?\d+ )?(?:−?[\d.]+)(?:/\d+)?"?†?)$""")]
    private static partial Regex Figure();
}
