using Rootgap.Packets;
using Rootgap.Sheets;
using Rootgap.Tests.Samples;

namespace Rootgap.Tests.Sheets.Isometrics;

/// <summary>Single signs and conventions, each on a small drawing.</summary>
public partial class IsometricSignsTest
{
    private static List<SheetReader> Read(Packet packet) =>
        [.. IsometricPages.Of(packet.ToJob(Paper.A4), withLists: false).Select(p => new SheetReader(SvgWriter.Write(p.Numbered(1, 1))))];

    private static SheetReader One(Packet packet) => Assert.Single(Read(packet));

    private static SheetReader Line(string start, params string[] legs) =>
        One(Given.Millimetres("size: 6, schedule: 40, class: 150", start, legs));

    private static List<string> Words(SheetReader sheet) => [.. sheet.Words.Where(w => w.Class.StartsWith("isometric", StringComparison.Ordinal)).Select(w => w.Text)];

    // Source: ISO 6412-2 (pipes off the axes are shown with auxiliary planes, hatched, and dimensioned along the axes); 600 and 600 make 848.5 (Pythagoras).
    [Fact]
    public void A_skew_leg_has_its_components_its_true_length_and_hatched_planes()
    {
        var sheet = Line("flange", "{go: north, by: 1200, to: elbow}", "{go: {north: 600, up: 600}, to: elbow}", "{go: north, by: 900, to: flange}");
        Assert.Superset(new HashSet<string>(["600 N", "600 up", "848.5 true", "1200", "900"], StringComparer.Ordinal), Words(sheet).ToHashSet(StringComparer.Ordinal));
        Assert.True(sheet.Strokes.Count(s => s.Class.EndsWith("planes", StringComparison.Ordinal)) > 5, "no hatching");
    }

    // Source: a rolling offset of 700 forward, 420 aside and 560 up: sqrt(700^2 + 420^2 + 560^2) = 989.95.
    [Fact]
    public void A_rolled_leg_has_all_three_components()
    {
        var sheet = Line("flange", "{go: north, by: 1200, to: elbow}", "{go: {north: 700, east: 420, up: 560}, to: elbow}", "{go: north, by: 900, to: flange}");
        Assert.Superset(new HashSet<string>(["700 N", "420 E", "560 up", "989.9 true"], StringComparer.Ordinal), Words(sheet).Select(w => w.Replace("990", "989.9", StringComparison.Ordinal)).ToHashSet(StringComparer.Ordinal));
    }

    [Fact]
    public void A_slope_is_written_with_its_fall()
    {
        var sheet = Line("cap", "{go: east, by: 2000, fall: 1:100, to: flange, holes from: up}");
        Assert.Contains(Words(sheet), w => w.EndsWith("fall 1:100", StringComparison.Ordinal));
        // Level as the drawing gives it, and the fall on it: arithmetic.
        Assert.Contains("2000 level, fall 20", Words(sheet));
        var bent = Line("cap", "{go: east, by: 2000, fall: 1:100, to: point}", "{go: east, by: 1500, fall: 1:100, to: flange, holes from: up}");
        Assert.Superset(new HashSet<string>(["EL −20", "1500 level, fall 15"], StringComparer.Ordinal), Words(bent).ToHashSet(StringComparer.Ordinal));
    }

    // What nobody would take for granted stands at its place: a leg's note, another wall, another class, holes that do not straddle (common practice).
    [Fact]
    public void Notes_and_what_changes_along_the_line_stand_at_their_places()
    {
        var words = Words(Line("flange", "{go: north, by: 1500, to: elbow, note: sleeve through the wall at 600}", "{go: east, by: 1200, schedule: 80, to: elbow}", "{go: north, by: 1100, class: 300, to: flange, holes: on-centre}")).ToList();
        Assert.Contains("sleeve through the wall at 600", words);
        Assert.Contains(words, w => w.EndsWith("sch 80", StringComparison.Ordinal));
        Assert.Contains("class 300, holes on centre", words);
        Assert.DoesNotContain(Words(Line("flange", "{go: north, by: 1500, to: elbow}", "{go: east, by: 1200, to: flange}")), w => w.Contains("class", StringComparison.Ordinal) && w.Contains("holes", StringComparison.Ordinal));
    }

    [Fact]
    public void Shop_field_and_final_fit_welds_differ_in_shape_and_not_only_in_colour()
    {
        var sheet = Line("flange", "{go: north, by: 1500, to: elbow}", "{go: up, by: 1500, to: elbow, end: field}", "{go: east, by: 2000, to: flange, end: final-fit}");
        string Shape(string kind) => string.Join(' ', sheet.Strokes.Where(s => s.Class.EndsWith("joint " + kind, StringComparison.Ordinal)).GroupBy(s => s.Id).First().Select(s => s.IsFill ? "fill" : "line"));
        Assert.Equal(3, new HashSet<string>([Shape("shop"), Shape("field"), Shape("final-fit")], StringComparer.Ordinal).Count);
        Assert.Contains("final fit", Words(sheet));
        var legend = sheet.Words.Where(w => w.Class.StartsWith("legend", StringComparison.Ordinal)).Select(w => w.Text).ToHashSet(StringComparer.Ordinal);
        Assert.Superset(new HashSet<string>(["shop weld", "field weld", "final-fit weld, with the extra left on"], StringComparer.Ordinal), legend);
    }

    [Fact]
    public void Starts_and_ends_have_coordinates_and_new_levels_an_elevation()
    {
        var sheet = One(Given.Packet("""
            drawing: T-1
            line: {size: 4, schedule: 40, class: 150}
            runs:
              - run: main
                flow: along
                start: {to: weld, continues: OTHER-7, at: {east: -8000, north: 250, up: 900}}
                legs:
                  - {go: up, by: 1450, to: elbow}
                  - {go: east, by: 3000, to: flange}
            """));
        Assert.Superset(new HashSet<string>(["continues on OTHER-7", "W 8000  N 250", "EL +900", "EL +2350", "W 5000  N 250"], StringComparer.Ordinal), Words(sheet).ToHashSet(StringComparer.Ordinal));
        Assert.Contains(sheet.Strokes, s => s.Class.EndsWith("flow", StringComparison.Ordinal));
    }

    // Source: textbook usage, north to the upper right; ISO 5456-3, 30 degrees above the horizontal.
    [Fact]
    public void North_points_to_the_upper_right()
    {
        var sheet = Line("flange", "{go: north, by: 1500, to: elbow}", "{go: up, by: 1500, to: elbow}", "{go: east, by: 2000, to: flange}");
        var compass = sheet.Strokes.Where(s => s.Class.EndsWith("compass", StringComparison.Ordinal) && s.Half > 0.3).ToList();
        var arrow = Assert.Single(compass);
        Assert.Equal(-30, Math.Atan2(arrow.B.Y - arrow.A.Y, arrow.B.X - arrow.A.X) * 180 / Math.PI, 0.5);
    }

    // A fitter lays the spool's sheet beside the foreman's: what goes to the right there goes to the right here.
    [Theory]
    [InlineData("compressed-air")]
    [InlineData("drain")]
    [InlineData("sea-water")]
    public void North_is_turned_the_same_on_all_sheets_of_a_drawing(string sample)
    {
        var job = SampleFile.Clean.First(s => s.Name.Contains(sample, StringComparison.Ordinal)).Packet().ToJob(Paper.A4);
        var arrows = ShopPages.Of(job).Concat(IsometricPages.Of(job, withLists: true)).Select(p => new SheetReader(SvgWriter.Write(p.Numbered(1, 1))))
            .SelectMany(sheet => sheet.Strokes.Where(s => (s.Class.StartsWith("isometric", StringComparison.Ordinal) && s.Class.EndsWith("compass", StringComparison.Ordinal) && s.Half > 0.3) || (s.Class.EndsWith("small compass", StringComparison.Ordinal) && s.Half > 0.15))).ToList();
        // The test pack's small picture has one too.
        Assert.Contains(arrows, a => a.Class.EndsWith("small compass", StringComparison.Ordinal));
        var norths = arrows.Select(arrow => Math.Round(Math.Atan2(arrow.B.Y - arrow.A.Y, arrow.B.X - arrow.A.X) * 180 / Math.PI)).ToList();
        Assert.True(norths.Count > 2, "no north");
        Assert.Single(norths.Distinct());
    }

    // A skew leg that looks straight is built straight (common practice). Equal parts east, north and up fall on the north axis in the usual view; east and south on the upright one.
    [Theory]
    [InlineData("{east: 600, north: 600, up: 600}")]
    [InlineData("{east: 600, south: 600}")]
    [InlineData("{east: 600, north: 300, up: 120}")]
    [InlineData("{west: 500, north: 500}", "{east: 500, north: 500}")]
    public void A_skew_leg_stands_five_degrees_off_every_axis_at_least(params string[] skew)
    {
        string[] legs = ["{go: north, by: 1500, to: elbow}", .. skew.SelectMany((parts, i) => new[] { $"{{go: {parts}, to: elbow}}", $"{{go: {(i % 2 == 0 ? "north" : "east")}, by: 1500, to: {(i == skew.Length - 1 ? "flange" : "elbow")}}}" })];
        var packet = Given.Millimetres("size: 4, schedule: 40, class: 150", "flange", legs);
        var sheet = new SheetReader(SvgWriter.Write(IsometricPages.Of(packet.ToJob(Paper.A4), withLists: false)[0].Numbered(1, 1)));
        var checkedPieces = 0;
        foreach (var cut in packet.Fabrication.Cuts.Where(c => new[] { c.Pipe.Direction.X, c.Pipe.Direction.Y, c.Pipe.Direction.Z }.Count(part => Math.Abs(part) > 0.1) > 1))
        {
            var stroke = sheet.Strokes.First(s => s.Id == cut.Piece && s.Half > 0.29);
            var angle = Math.Atan2(stroke.B.Y - stroke.A.Y, stroke.B.X - stroke.A.X) * 180 / Math.PI;
            Assert.All(new[] { 30, -30, 90 }, axis => Assert.True(Math.Abs(Math.IEEERemainder(angle - axis, 180)) >= 5, $"{cut.Piece} at {angle:0.0} degrees"));
            checkedPieces++;
        }

        Assert.Equal(skew.Length, checkedPieces);
    }

    // At the end of a sheet: how far it is to the joint there, and the whole once. Both sheets' parts add up to the leg.
    [Fact]
    public void Where_a_sheet_ends_within_a_leg_it_says_the_length_to_the_joint_there()
    {
        var legs = Enumerable.Range(0, 40).Select(i => $"{{go: {(i % 2 == 0 ? "east" : i % 4 == 1 ? "up" : "north")}, by: 14000, to: {(i == 39 ? "flange" : "elbow")}}}").ToArray();
        var packet = Given.Millimetres("size: 4, schedule: 40, class: 150", "flange", legs);
        var sheets = IsometricPages.Of(packet.ToJob(Paper.A4), withLists: false).Select(p => new SheetReader(SvgWriter.Write(p.Numbered(1, 1)))).ToList();
        Assert.True(sheets.Count > 1, "one sheet");
        var parts = sheets.SelectMany(s => s.Words).Select(w => ToJoint().Match(w.Text)).Where(m => m.Success).Select(m => (To: double.Parse(m.Groups[1].Value, System.Globalization.CultureInfo.InvariantCulture), Whole: m.Groups[2].Value)).ToList();
        Assert.NotEmpty(parts);
        Assert.All(parts, p => Assert.Equal("14000", p.Whole));
        // The joint where the sheets part is on both of them; what is said of it from either side makes the leg.
        var joints = sheets.Select(s => s.Words.Where(w => w.Text.StartsWith("match line", StringComparison.Ordinal)).Count()).ToList();
        Assert.All(joints, n => Assert.True(n > 0));
        Assert.Contains(parts, p => parts.Exists(other => Math.Abs(p.To + other.To - 14000) < 0.6));
    }

    [System.Text.RegularExpressions.GeneratedRegex(@"^([0-9.]+) \(([0-9]+) whole\)$")]
    private static partial System.Text.RegularExpressions.Regex ToJoint();

    [Fact]
    public void A_loop_closes_on_paper()
    {
        // Out 2000 east and back by a branch 600 above: the tie-in's last leg ends where the second tee stands.
        var packet = Given.Packet("""
            drawing: T-1
            line: {size: 4, schedule: 40, class: 150}
            runs:
              - run: main
                start: {to: flange}
                legs:
                  - {go: east, by: 1000, to: tee, name: A, branch: up}
                  - {go: east, by: 5000, to: tee, name: B, branch: up}
                  - {go: east, by: 1000, to: flange}
              - run: bypass
                start: {from: A}
                legs:
                  - {go: up, by: 600, to: elbow}
                  - {go: east, by: 5000, to: elbow}
                  - {go: down, by: 600, to: tie-in, with: B}
            """);
        Assert.True(packet.IsBuildable, string.Join('\n', packet.Findings.Select(f => f.Message)));
        var sheet = One(packet);
        // The last piece of the bypass ends at the weld to the tee, and that at the tee: all on one spot of paper.
        var last = packet.Fabrication.Route.Joints[^1].Id;
        var weld = sheet.Strokes.First(s => s.Id == last);
        var tee = packet.Fabrication.Route.Components.Where(c => c.Ware == Rootgap.Drawings.Ware.Tee).Skip(1).First().Id;
        Assert.Contains(sheet.Strokes.Where(s => s.Id == tee), s => new[] { s.A, s.B }.Any(p => Math.Abs(p.X - weld.A.X) < 1.2 && Math.Abs(p.Y - weld.A.Y) < 1.2));
    }

    [Fact]
    public void A_drawing_that_does_not_close_is_drawn_all_the_same()
    {
        var sheet = One(Given.Packet("""
            drawing: T-1
            line: {size: 4, schedule: 40, class: 150}
            runs:
              - run: main
                start: {to: flange}
                legs:
                  - {go: east, by: 1000, to: tee, name: A, branch: up}
                  - {go: east, by: 5000, to: tee, name: B, branch: up}
                  - {go: east, by: 1000, to: flange}
              - run: bypass
                start: {from: A}
                legs:
                  - {go: up, by: 600, to: elbow}
                  - {go: north, by: 5000, to: elbow}
                  - {go: up, by: 600, to: tie-in, with: B}
            """));
        Assert.Contains(sheet.Words, w => w.Text == "NOT FOR FABRICATION");
    }

    [Fact]
    public void A_drawing_too_full_for_one_sheet_goes_on_over_match_lines_that_name_each_other()
    {
        var legs = Enumerable.Range(0, 40).Select(i => $"{{go: {(i % 2 == 0 ? "east" : i % 4 == 1 ? "up" : "north")}, by: 1500, to: {(i == 39 ? "flange" : "elbow")}{(i % 5 == 4 && i < 39 ? ", end: field" : "")}}}").ToArray();
        var packet = Given.Millimetres("size: 6, schedule: 40, class: 150", "flange", legs);
        var sheets = Read(packet);
        Assert.True(sheets.Count > 1, "one sheet was enough");
        for (var i = 0; i < sheets.Count; i++)
        {
            var marks = Words(sheets[i]).Where(w => w.StartsWith("match line", StringComparison.Ordinal)).ToList();
            Assert.NotEmpty(marks);
            foreach (var mark in marks)
            {
                var other = int.Parse(mark.Split(' ')[^1], System.Globalization.CultureInfo.InvariantCulture) - 1;
                Assert.NotEqual(i, other);
                Assert.Contains(Words(sheets[other]), w => w == $"match line: isometric {i + 1}");
            }
        }

        // It is cut where the welds are made at site, and such a weld is on both sheets.
        var cut = packet.Fabrication.Route.Joints.Where(j => sheets.Count(s => s.Ids.Contains(j.Id, StringComparer.Ordinal)) > 1).ToList();
        Assert.All(cut, j => Assert.Equal(Rootgap.Drawings.WeldPlace.Field, j.Place));
        Assert.Equal(sheets.Count - 1, cut.Count);
    }

    [Fact]
    public void A_small_drawing_fits_the_small_paper_and_a_larger_one_stands_beside_its_lists()
    {
        var small = IsometricPages.Of(Given.Millimetres("size: 6, schedule: 40, class: 150", "flange", "{go: north, by: 1500, to: elbow}", "{go: up, by: 1500, to: flange}").ToJob(Paper.A4), withLists: false);
        Assert.Equal(Paper.A4.Landscape, Assert.Single(small).Paper);
        var legs = Enumerable.Range(0, 14).Select(i => $"{{go: {(i % 2 == 0 ? "east" : i % 4 == 1 ? "up" : "north")}, by: 1500, to: {(i == 13 ? "flange" : "elbow")}}}").ToArray();
        var large = IsometricPages.Of(Given.Millimetres("size: 6, schedule: 40, class: 150", "flange", legs).ToJob(Paper.A4), withLists: false);
        Assert.Equal(Paper.A3.Landscape, Assert.Single(large).Paper);
        Assert.Contains(new SheetReader(SvgWriter.Write(large[0].Numbered(1, 1))).Words, w => w.Text == "Material");
    }

    [Fact]
    public void A_spool_alone_has_its_own_pieces_and_its_lengths_to_where_it_ends()
    {
        var packet = Given.Millimetres("size: 6, schedule: 40, class: 150", "flange", "{go: north, by: 1500, to: elbow}", "{go: up, by: 1500, to: elbow, end: field}", "{go: east, by: 2000, to: flange}");
        var f = packet.Fabrication;
        var figure = Isometric.Of(f, f.Spools[0], 180, 120);
        var sheet = new SheetReader(SvgWriter.Write(new Scene(new Paper("figure", 180, 120), figure.Marks)));
        var words = sheet.Words.Select(w => w.Text).ToHashSet(StringComparer.Ordinal);
        Assert.Superset(new HashSet<string>(["1-A", "1-B", "1500"], StringComparer.Ordinal), words);
        Assert.DoesNotContain("2-A", words);
        // Source: the sum by hand with root gap 0: 1500 from the elbow's centre less the next elbow's take-off of 229 (ASME B16.9, NPS 6 long radius).
        Assert.Contains("1271", words);
    }

    /// <summary>Drawings that are odd, poor or wrong: each gives a sheet, and no figure on it is lost or not a number.</summary>
    [Theory]
    [InlineData("start: {to: cap}", "{go: up, by: 500, to: cap}")]
    [InlineData("start: {to: flange}", "{go: north, by: makeup, to: elbow}", "{go: up, by: makeup, to: elbow}", "{go: north, by: makeup, to: reducer, size: 4}", "{go: north, by: makeup, to: flange}")]
    [InlineData("start: {to: flange}", "{go: north, by: 900, to: elbow}", "{go: {north: 300, west: 300, up: 300}, to: elbow}", "{go: north, by: 900, to: flange}")]
    [InlineData("start: {to: flange}", "{go: north, by: 900, to: elbow}", "{go: {east: 300, south: 300, up: 300}, to: flange}")]
    [InlineData("start: {to: flange}", "{go: north, by: 100, to: elbow}", "{go: up, by: 40, to: tee, name: A, branch: up}", "{go: up, by: 20, to: flange}")]
    [InlineData("start: {to: open}", "{go: north, by: 0.5, to: point}", "{go: north, by: 1, to: open}")]
    [InlineData("start: {to: flange}", "{go: north, by: 900, to: elbow}", "{go: south, by: 900, to: flange}")]
    [InlineData("start: {to: flange}", "{go: north, by: 1500, to: elbow, spool: a name that is much longer than anyone would write on a spool}", "{go: up, by: 900, to: flange}")]
    [InlineData("start: {to: flange}", "{go: north, by: 90000000, to: elbow}", "{go: up, by: 200, to: valve, kind: butterfly}", "{go: up, by: 300, to: valve, kind: check}", "{go: up, by: 900, to: open, ends: threaded}")]
    public void An_odd_drawing_is_drawn_all_the_same(string start, params string[] legs)
    {
        var packet = Given.Packet($$"""
            drawing: ODD-1
            line: {size: 6, schedule: 40, class: 150}
            runs:
              - run: main
                {{start}}
                legs:
                  - {{string.Join("\n      - ", legs)}}
              - run: other
                start: {to: flange, at: {east: 5000, north: 0, up: 0} }
                legs:
                  - {go: east, by: 1000, to: flange}
            """);
        var svg = IsometricPages.Of(packet.ToJob(Paper.A4), withLists: true).Select(p => SvgWriter.Write(p.Numbered(1, 1))).ToList();
        Assert.All(svg, s => Assert.DoesNotContain("NaN", s, StringComparison.Ordinal));
        var sheets = svg.Select(s => new SheetReader(s)).ToList();
        Assert.All(sheets, s => Assert.Equal(s.Ids.Count, s.Ids.Distinct(StringComparer.Ordinal).Count()));
        var words = sheets.SelectMany(s => s.Words).Select(w => w.Text).ToHashSet(StringComparer.Ordinal);
        Assert.Superset(packet.Fabrication.Route.Joints.Select(j => j.Id).Concat(packet.Fabrication.Cuts.Select(c => c.Piece)).ToHashSet(StringComparer.Ordinal), words);
        foreach (var spool in packet.Fabrication.Spools)
            Assert.NotEmpty(Isometric.Of(packet.Fabrication, spool, 150, 90).Marks);
    }
}
