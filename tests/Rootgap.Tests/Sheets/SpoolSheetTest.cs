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
public partial class SpoolSheetTest(ITestOutputHelper output)
{
    /// <summary>Random drawings a law; each has several spools.</summary>
    private const int Many = 40;

    public static TheoryData<string> Names => [.. SampleFile.Clean.Select(s => s.Name)];

    private static Packet Sample(string name) => SampleFile.All.Single(s => s.Name == name).Packet();

    private static Scene Views(Fabricating.Fabrication f, Spool spool)
    {
        var subject = new ViewSubject(f, spool, CheckRows.Marks(CheckRows.Of(f, new Rootgap.FitUp.FitJoints(f).OfSpool(spool))));
        var (figure, _) = ViewSheet.Of(subject, ViewSheet.Choose(subject), 185, 240);
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
        var scale = page.Texts.Select(t => ScaleText().Match(t.Text)).Where(m => m.Success).Select(ScaleOf).Distinct().Single();
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
                if (view.Key == "flat")
                {
                    // Laid flat in its own plane every length is true.
                    Assert.Equal(Distance(a, b) / scale, Distance(first.At, other.At), 0.1);
                    continue;
                }

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
        "above" => (v.North, -v.East),
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
            // One sheet of paper: front, and back where the tables leave no room for the drawings.
            Assert.InRange(scenes.Count, 1, 2);
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

    private static List<Scene> Sheets(Packet packet, Spool spool) => [.. new Booklet("spool", SpoolSheet.Of(packet.ToJob(Paper.A4), new Rootgap.FitUp.FitJoints(packet.Fabrication), spool)).Scenes()];

    [Theory]
    [MemberData(nameof(Names))]
    public void Targets_between_parallel_faces_are_the_distances_between_the_ends_in_the_packet(string name)
    {
        var packet = Sample(name);
        using var json = JsonDocument.Parse(Given.Json(packet));
        var root = json.RootElement;
        foreach (var spool in packet.Fabrication.Spools)
        {
            var rows = Sheets(packet, spool).SelectMany(s => new SvgReader(SvgWriter.Write(s)).Texts).Where(t => t.Class == "check").Select(t => t.Text).ToList();
            for (var r = 0; r + 1 < rows.Count; r++)
            {
                // Lips of one size: a tape from a flange's lip to a pipe's runs askew.
                if (AllRound().Match(rows[r]) is not { Success: true } pair || pair.Groups[1].Value.StartsWith('C') != pair.Groups[2].Value.StartsWith('C'))
                    continue;
                if (EndOf(root, spool, pair.Groups[1].Value) is not { } a || EndOf(root, spool, pair.Groups[2].Value) is not { } b)
                    continue;
                // To half a millimetre or a sixteenth, the final-fit extra of a piece that has it besides.
                var extra = spool.Cuts.Where(c => c.Piece == pair.Groups[1].Value || c.Piece == pair.Groups[2].Value).Sum(c => c.Extra);
                Assert.True(LengthText.TryParse(rows[r + 1], packet.Drawing.Units, out var mm), rows[r + 1]);
                Assert.Equal(Distance(a, b) + extra, mm, packet.Drawing.Units == Units.Inches ? 0.9 : 0.26 + packet.Fabrication.Cuts.Sum(c => c.Allowance));
            }
        }
    }

    // Where a part's open end is: of its ports the one next to the joint that parts it from its neighbour; null where nothing is joined there.
    private static (double East, double North, double Up)? EndOf(JsonElement packet, Spool spool, string name)
    {
        var owner = packet.GetProperty("components").EnumerateArray().Where(c => c.GetProperty("id").GetString() == name)
            .Concat(packet.GetProperty("cuts").EnumerateArray().Where(c => c.GetProperty("piece").GetString() == name)).Single();
        var id = spool.Cuts.FirstOrDefault(c => c.Piece == name)?.Pipe.Id ?? name;
        if (spool.Ends.FirstOrDefault(j => j.Between.Contains(id, StringComparer.Ordinal)) is not { } joint)
            return null;
        var at = Coordinates(packet.GetProperty("joints").EnumerateArray().Single(e => e.GetProperty("joint").GetString() == joint.Id).GetProperty("at"));
        return Ports(owner).MinBy(p => Distance(at, p));
    }

    // A letter in a view leads to the row of the table that has the same figure, and no view has only figures that nobody can tape.
    [Theory]
    [MemberData(nameof(Names))]
    public void Figures_of_the_views_bear_the_letters_of_the_rows_that_ask_for_them(string name)
    {
        var packet = Sample(name);
        var lettered = 0;
        foreach (var spool in packet.Fabrication.Spools)
        {
            var sides = Sheets(packet, spool).Select(s => new SvgReader(SvgWriter.Write(s)).Texts.ToList()).ToList();
            var cells = sides.SelectMany(s => s).Where(t => t.Class == "check").Select(t => t.Text).ToList();
            foreach (var text in sides.SelectMany(s => s).Where(t => t.Class != "check"))
            {
                if (Lettered().Match(text.Text) is not { Success: true } m)
                    continue;
                var row = cells.IndexOf(m.Groups[1].Value);
                Assert.True(row >= 0, $"spool {spool.Name}: no row {text.Text}");
                Assert.Contains(m.Groups[2].Value, cells.Skip(row + 1).Take(5));
                lettered++;
            }
        }

        output.WriteLine($"{name}: {lettered} letters in the views of {packet.Fabrication.Spools.Count} spools");
        Assert.True(lettered > 0);
    }

    [Fact]
    public void A_final_fit_extra_is_said_where_it_is_and_where_it_is_not()
    {
        var packet = Given.Run("mm", "size: 6, schedule: 40, class: 150", "root gap: 3, final fit extra: 100", "flange", "{go: north, by: 2500, to: elbow, end: final-fit}", "{go: up, by: 1500, to: flange}");
        var cut = packet.Fabrication.Cuts.Single(c => c.Extra > 0);
        Assert.Equal(2, packet.Fabrication.Spools.Count);
        foreach (var spool in packet.Fabrication.Spools)
        {
            var words = string.Join(' ', Sheets(packet, spool).SelectMany(s => new SvgReader(SvgWriter.Write(s)).Texts).Select(t => t.Text));
            var hasIt = spool.Cuts.Contains(cut);
            Assert.Equal(hasIt, words.Contains($"+100 left on {cut.Piece}", StringComparison.Ordinal));
            Assert.Equal(!hasIt, words.Contains($"+100 is on {cut.Piece}", StringComparison.Ordinal));
        }
    }

    [Fact]
    public void Figures_that_are_too_near_each_other_are_spread_and_keep_their_order() =>
        Gen.Double[0, 200].Array[1, 30].Holds(wished =>
        {
            Array.Sort(wished);
            var places = RunningDimensions.Spread(wished);
            for (var i = 1; i < places.Length; i++)
                Assert.True(places[i] - places[i - 1] >= 3.9 - 1e-9);
            // Who has room stays.
            for (var i = 0; i < places.Length; i++)
            {
                if ((i == 0 || wished[i] - wished[i - 1] > 3.9 * (places.Length + 1)) && (i == places.Length - 1 || wished[i + 1] - wished[i] > 3.9 * (places.Length + 1)))
                    Assert.Equal(wished[i], places[i], 1e-9);
            }

            Assert.Equal(places.Reverse().Select(p => -p), RunningDimensions.Spread([.. wished.Reverse().Select(w => -w)]).Select(p => p), (x, y) => Math.Abs(x - y) < 1e-6);
        }, iter: 300);

    [Fact]
    public void Butt_welds_on_the_way_between_two_ends_draw_in_along_their_pipe()
    {
        var packet = Given.Millimetres("size: 6, schedule: 40, class: 150", "flange", "{go: north, by: 1500, to: elbow}", "{go: up, by: 1500, to: flange}");
        var spool = packet.Fabrication.Spools.Single();
        var flanges = spool.Components.Where(c => c is Rootgap.Routes.Flange).Select(c => c.Id).ToList();
        var way = CheckRows.Way(spool, flanges[0], flanges[1]);
        // Flange to pipe, pipe to elbow: two welds north; two up.
        Assert.Equal((4, 2.0, 2.0), (way.Count, Math.Round(way.Sum(a => a.Y), 6), Math.Round(way.Sum(a => a.Z), 6)));
    }

    private static IEnumerable<(double East, double North, double Up)> Ports(JsonElement owner) => owner.GetProperty("ports").EnumerateArray().Select(Coordinates);

    private static (double East, double North, double Up) Coordinates(JsonElement at) => (at.GetProperty("east").GetDouble(), at.GetProperty("north").GetDouble(), at.GetProperty("up").GetDouble());

    private static double Distance((double East, double North, double Up) a, (double East, double North, double Up) b) =>
        Math.Sqrt(((a.East - b.East) * (a.East - b.East)) + ((a.North - b.North) * (a.North - b.North)) + ((a.Up - b.Up) * (a.Up - b.Up)));

    private static double Distance((double X, double Y) a, (double X, double Y) b) => Math.Sqrt(((a.X - b.X) * (a.X - b.X)) + ((a.Y - b.Y) * (a.Y - b.Y)));

    private static (double X, double Y) Middle(List<(double X, double Y)> line) =>
        ((line.Min(p => p.X) + line.Max(p => p.X)) / 2, (line.Min(p => p.Y) + line.Max(p => p.Y)) / 2);

    // 1 : 20, or inches to a foot.
    private static double ScaleOf(Match m) => m.Groups[1].Success ? double.Parse(m.Groups[1].Value, CultureInfo.InvariantCulture)
        : LengthText.TryParse(m.Groups[2].Value, Units.Inches, out var mm) ? 12 * 25.4 / mm : throw new InvalidDataException(m.Value);

    [GeneratedRegex("""^(?:1 : ([0-9.]+)|(.+") = 1'-0")$""")]
    private static partial Regex ScaleText();

    [GeneratedRegex("""^([a-z]{1,2}) ((?:\d+'-)?\d[\d./ ]*"?)$""")]
    private static partial Regex Lettered();

    [GeneratedRegex(@"^(\S+) – (\S+), (?:four places|all round)(?:, extra on)?$")]
    private static partial Regex AllRound();
}
