using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Packets;
using Rootgap.Sheets;
using Rootgap.Tests.Samples;
using UglyToad.PdfPig;

namespace Rootgap.Tests.Sheets;

/// <summary>The sheets of spools, read back from their SVG and PDF by readers that know nothing of how they were drawn, against the packet as other programs read it.</summary>
[Trait("pace", "slow")]
public partial class SpoolSheetTest
{
    /// <summary>Random drawings a law; each has several spools.</summary>
    private const int Many = 40;

    public static TheoryData<string> Names => [.. SampleFile.Clean.Select(s => s.Name)];

    private static Packet Sample(string name) => SampleFile.All.Single(s => s.Name == name).Packet();

    private static Scene Views(Fabricating.Fabrication f, Spool spool)
    {
        var (figure, _) = ViewSheet.Of(new ViewSubject(f, spool), 185, 240, 0);
        return new Canvas().Place(figure, new(15, 15)).ToScene(Paper.A4);
    }

    private static void ForAllViews(Action<Packet, Spool, Scene> law, Packet packet)
    {
        foreach (var spool in packet.Fabrication.Spools)
            law(packet, spool, Views(packet.Fabrication, spool));
    }

    private static void Clear(Packet packet, Spool spool, Scene scene)
    {
        var page = new SvgReader(SvgWriter.Write(scene));
        Assert.Empty(page.OverlappingTexts().Select(t => $"spool {spool.Name}: {t}"));
        Assert.Empty(page.TextsAcross("part ").Select(t => $"spool {spool.Name}: {t}"));
        Assert.All(page.Texts, t => Assert.InRange(Distance(t.Corners[0], t.Corners[3]), 2.49, 20));
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void On_the_views_no_text_lies_on_another_or_across_pipe(string name) => ForAllViews(Clear, Sample(name));

    [Fact]
    public void On_the_views_of_random_drawings_no_text_lies_on_another_or_across_pipe() =>
        Gens.Sketches.Holds(s => ForAllViews(Clear, s.Packet()), iter: Many, print: s => s.Yaml());

    [Theory]
    [MemberData(nameof(Names))]
    public void In_the_PDF_no_letter_of_the_views_lies_on_another(string name)
    {
        var scenes = Sample(name) is var packet ? packet.Fabrication.Spools.Select(s => Views(packet.Fabrication, s)) : [];
        var stream = new MemoryStream();
        PdfWriter.Write(stream, "views", scenes);
        using var pdf = PdfDocument.Open(stream.ToArray());
        foreach (var page in pdf.GetPages())
        {
            var letters = page.Letters.Where(l => l.Value.Trim().Length > 0).Select(l => (l.Value, Box: l.BoundingBox)).OrderBy(l => l.Box.Left).ToList();
            Assert.NotEmpty(letters);
            for (var i = 0; i < letters.Count; i++)
            {
                for (var k = i + 1; k < letters.Count && letters[k].Box.Left < letters[i].Box.Right; k++)
                {
                    var (a, b) = (letters[i].Box, letters[k].Box);
                    var (wide, high) = (Math.Min(a.Right, b.Right) - Math.Max(a.Left, b.Left), Math.Min(a.Top, b.Top) - Math.Max(a.Bottom, b.Bottom));
                    // Neighbours in a word may touch by a hair; slanted letters have larger boxes than they fill.
                    Assert.False(wide > 1 && high > 1 && a.Width > 0 && a.Rotation == 0 && b.Rotation == 0, $"page {page.Number}: {letters[i].Value} on {letters[k].Value}");
                }
            }
        }
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Weld_marks_stand_to_scale(string name) => ForAllViews(ToScale, Sample(name));

    [Fact]
    public void On_random_drawings_weld_marks_stand_to_scale() =>
        Gens.Sketches.Holds(s => ForAllViews(ToScale, s.Packet()), iter: Many, print: s => s.Yaml());

    private static void ToScale(Packet packet, Spool spool, Scene scene)
    {
        var page = new SvgReader(SvgWriter.Write(scene));
        var scale = page.Texts.Select(t => ScaleText().Match(t.Text)).Where(m => m.Success).Select(m => double.Parse(m.Groups[1].Value, CultureInfo.InvariantCulture)).Distinct().Single();
        using var json = JsonDocument.Parse(Given.Json(packet));
        var at = json.RootElement.GetProperty("joints").EnumerateArray().ToDictionary(j => j.GetProperty("joint").GetString()!, j => Coordinates(j.GetProperty("at")));
        // A mark's middle: that of the first circle drawn under its id.
        var marks = page.Paths.Where(p => p.Class.StartsWith("weld ", StringComparison.Ordinal)).GroupBy(p => p.Id, StringComparer.Ordinal)
            .Select(g => (View: g.Key[..g.Key.IndexOf('-', StringComparison.Ordinal)], Joint: g.Key[(g.Key.IndexOf('-', StringComparison.Ordinal) + 1)..], At: Middle(g.First().Line))).ToList();
        // Each joint of the spool that is not hidden has its mark in some view; a plain length of pipe has none.
        Assert.True(marks.Count > 0 || spool.Joints.Count + spool.Ends.Count == 0);
        foreach (var view in marks.GroupBy(m => m.View, StringComparer.Ordinal))
        {
            var first = view.First();
            foreach (var other in view.Skip(1))
            {
                var (a, b) = (at[first.Joint], at[other.Joint]);
                var (right, up) = OnPaper(view.Key, (b.East - a.East, b.North - a.North, b.Up - a.Up));
                Assert.Equal(right / scale, other.At.X - first.At.X, 0.1);
                Assert.Equal(-up / scale, other.At.Y - first.At.Y, 0.1);
            }
        }
    }

    /// <summary>Where a plant direction lies on a picture that is seen square on: what one sees who stands on that side (common practice).</summary>
    private static (double Right, double Up) OnPaper(string view, (double East, double North, double Up) v) => view switch
    {
        "plan" => (v.East, v.North),
        "south" => (v.East, v.Up),
        "north" => (-v.East, v.Up),
        "east" => (v.North, v.Up),
        "west" => (-v.North, v.Up),
        _ => throw new InvalidDataException(view),
    };

    [Theory]
    [MemberData(nameof(Names))]
    public void Every_piece_part_and_joint_of_a_spool_is_on_its_sheets(string name)
    {
        var packet = Sample(name);
        using var json = JsonDocument.Parse(Given.Json(packet));
        foreach (var spool in json.RootElement.GetProperty("spools").EnumerateArray())
        {
            var made = packet.Fabrication.Spools.Single(s => s.Name == spool.GetProperty("spool").GetString());
            var scenes = Sheets(packet, made);
            var inSvg = scenes.SelectMany(s => new SvgReader(SvgWriter.Write(s)).Texts).Select(t => t.Text).ToHashSet(StringComparer.Ordinal);
            var stream = new MemoryStream();
            PdfWriter.Write(stream, "spool", scenes);
            using var pdf = PdfDocument.Open(stream.ToArray());
            var inPdf = string.Join(' ', pdf.GetPages().Select(p => p.Text));
            foreach (var id in new[] { "pieces", "components", "joints" }.SelectMany(kind => spool.GetProperty(kind).EnumerateArray()).Select(e => e.GetString()!))
            {
                Assert.Contains(id, inSvg);
                Assert.Contains(id, inPdf, StringComparison.Ordinal);
            }
        }
    }

    private static List<Scene> Sheets(Packet packet, Spool spool) => [.. new Booklet("spool", SpoolPages.One(packet.ToJob(Paper.A4), spool)).Scenes()];

    [Theory]
    [MemberData(nameof(Names))]
    public void Check_dimensions_are_the_distances_between_the_ends_in_the_packet(string name)
    {
        var packet = Sample(name);
        using var json = JsonDocument.Parse(Given.Json(packet));
        var compared = 0;
        foreach (var spool in packet.Fabrication.Spools)
        {
            var texts = Sheets(packet, spool).SelectMany(s => new SvgReader(SvgWriter.Write(s)).Texts).ToList();
            var words = string.Join(' ', texts.Select(t => t.Text));
            var ends = EndText().Matches(words).GroupBy(m => m.Groups[1].Value, StringComparer.Ordinal).ToDictionary(g => g.Key, g => Port(json.RootElement, g.First().Groups[2].Value), StringComparer.Ordinal);
            var rows = texts.Where(t => t.Class == "check").Select(t => t.Text).ToList();
            for (var r = 0; r < rows.Count; r++)
            {
                if (PairText().Match(rows[r]) is not { Success: true } pair || ends[pair.Groups[1].Value] is not { } a || ends[pair.Groups[2].Value] is not { } b)
                    continue;
                var printed = rows.GetRange(r + 1, 4);
                double[] way = [b.East - a.East, b.North - a.North, b.Up - a.Up];
                for (var i = 0; i < 3; i++)
                    Assert.Equal(Math.Abs(way[i]), Length(printed[i], packet), packet.Drawing.Units == Units.Inches ? 0.9 : 0.11);
                Assert.True(Math.Abs(way[0]) < 1 || printed[0].EndsWith(way[0] > 0 ? 'E' : 'W'), printed[0]);
                Assert.True(Math.Abs(way[2]) < 1 || printed[2].EndsWith(way[2] > 0 ? "up" : "down", StringComparison.Ordinal), printed[2]);
                Assert.Equal(Math.Sqrt(way.Sum(w => w * w)), Length(printed[3], packet), packet.Drawing.Units == Units.Inches ? 0.9 : 0.11);
                compared++;
            }
        }

        Assert.True(compared > 2, $"{compared} rows compared");
    }

    private static double Length(string text, Packet packet)
    {
        text = text.TrimEnd(' ', 'E', 'W', 'N', 'S', 'u', 'p', 'd', 'o', 'w', 'n');
        Assert.True(LengthText.TryParse(text, packet.Drawing.Units, out var mm), text);
        return mm;
    }

    /// <summary>The place of an end by what the sheet calls it; null for those that are no port of the packet.</summary>
    private static (double East, double North, double Up)? Port(JsonElement packet, string says)
    {
        var joints = packet.GetProperty("joints").EnumerateArray().ToList();
        if (FlangeText().Match(says) is { Success: true } flange)
        {
            // Of a flange's two ends the contact face is the one next to its gasket.
            var id = flange.Groups[1].Value;
            var bolted = Coordinates(joints.First(j => j.GetProperty("kind").GetString() == "bolted" && j.GetProperty("between").EnumerateArray().Any(b => b.GetString() == id)).GetProperty("at"));
            return Ports(packet.GetProperty("components").EnumerateArray().Single(c => c.GetProperty("id").GetString() == id)).MinBy(p => Distance(p, bolted));
        }

        if (JointEndText().Match(says) is { Success: true } end)
        {
            var joint = Coordinates(joints.Single(j => j.GetProperty("joint").GetString() == end.Groups[2].Value).GetProperty("at"));
            var owner = packet.GetProperty("components").EnumerateArray().Where(c => c.GetProperty("id").GetString() == end.Groups[1].Value)
                .Concat(packet.GetProperty("cuts").EnumerateArray().Where(c => c.GetProperty("piece").GetString() == end.Groups[1].Value)).Single();
            return Ports(owner).MinBy(p => Distance(p, joint));
        }

        return null;
    }

    private static IEnumerable<(double East, double North, double Up)> Ports(JsonElement owner) => owner.GetProperty("ports").EnumerateArray().Select(Coordinates);

    private static (double East, double North, double Up) Coordinates(JsonElement at) => (at.GetProperty("east").GetDouble(), at.GetProperty("north").GetDouble(), at.GetProperty("up").GetDouble());

    private static double Distance((double East, double North, double Up) a, (double East, double North, double Up) b) =>
        Math.Sqrt(((a.East - b.East) * (a.East - b.East)) + ((a.North - b.North) * (a.North - b.North)) + ((a.Up - b.Up) * (a.Up - b.Up)));

    private static double Distance((double X, double Y) a, (double X, double Y) b) => Math.Sqrt(((a.X - b.X) * (a.X - b.X)) + ((a.Y - b.Y) * (a.Y - b.Y)));

    private static (double X, double Y) Middle(List<(double X, double Y)> line) =>
        ((line.Min(p => p.X) + line.Max(p => p.X)) / 2, (line.Min(p => p.Y) + line.Max(p => p.Y)) / 2);

    [GeneratedRegex(@"^1 : ([0-9.]+)$")]
    private static partial Regex ScaleText();

    [GeneratedRegex(@"\b(E\d+): (.+?), facing ")]
    private static partial Regex EndText();

    [GeneratedRegex(@"^(E\d+) – (E\d+)$")]
    private static partial Regex PairText();

    [GeneratedRegex(@"^face of flange (\S+)$")]
    private static partial Regex FlangeText();

    [GeneratedRegex(@"^end of ([^ ,]+).* at (\S+)$")]
    private static partial Regex JointEndText();
}
