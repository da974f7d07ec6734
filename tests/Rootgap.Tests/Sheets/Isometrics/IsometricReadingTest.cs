using System.Globalization;
using System.Text.RegularExpressions;
using Rootgap.Measure;
using Rootgap.Packets;
using Rootgap.Routes;
using Rootgap.Sheets;

namespace Rootgap.Tests.Sheets.Isometrics;

/// <summary>What a fitter reads off an isometric: figures that add up, words and leaders that stand where the thing is.</summary>
public partial class IsometricReadingTest
{
    private static List<SheetReader> Read(Packet packet) =>
        [.. IsometricPages.Of(packet.ToJob(Paper.A4), withLists: true).Select(p => new SheetReader(SvgWriter.Write(p.Numbered(1, 1))))];

    private static SheetReader First(Packet packet) => Read(packet)[0];

    private static List<string> Words(SheetReader sheet) => [.. sheet.Words.Where(w => w.Class.StartsWith("isometric", StringComparison.Ordinal)).Select(w => w.Text)];

    // Arithmetic: what two sheets say of a leg makes the leg as printed, and each part goes to the middle of the joint, whose coordinates stand there.
    [Theory]
    [InlineData("in", "1/8", "46 ft 0 3/16 in", "")]
    [InlineData("mm", "3.2", "14000", "")]
    [InlineData("in", "1/8", "46 ft 0 3/16 in", ", fall: 1:96")]
    public void The_parts_of_a_leg_on_two_sheets_make_the_leg(string units, string gap, string whole, string fall)
    {
        var legs = Enumerable.Range(0, 40).Select(i => $"{{go: {(i % 2 == 0 ? "east" : i % 4 == 1 && fall.Length == 0 ? "up" : "north")}, by: {whole}{fall}, to: {(i == 39 ? "flange, holes from: up" : "elbow")}}}").ToArray();
        var packet = Given.Run(units, "size: 4, schedule: 40, class: 150", $"root gap: {gap}", "flange", legs);
        var sheets = Read(packet);
        var parts = sheets.SelectMany(s => s.Words).Select(w => Part().Match(w.Text)).Where(m => m.Success).ToList();
        Assert.NotEmpty(parts);
        var bare = units == "in" ? Units.Inches : Units.Millimetres;
        double Mm(string text)
        {
            Assert.True(LengthText.TryParse(text, bare, out var mm), text);
            return mm;
        }

        Assert.All(parts, p => Assert.Equal(Mm(whole), Mm(p.Groups[2].Value), 1e-6));
        var lengths = parts.Select(p => Mm(p.Groups[1].Value)).ToList();
        Assert.All(lengths, one => Assert.Contains(lengths, other => Math.Abs(one + other - Mm(whole)) < 1e-6));
        // To the middle of a joint of that leg, level where the leg falls: within the sixteenth or the tenth that is printed.
        var route = packet.Fabrication.Route;
        var least = bare == Units.Inches ? LengthText.Inch / 16 : 0.1;
        Assert.All(lengths, mm => Assert.Contains(route.Joints, j => route.Runs[0].Points.Any(p => Math.Abs(Level(p, j.At) - mm) < 0.51 * least || Math.Abs(Math.Abs(p.Z - j.At.Z) - mm) < 0.51 * least)));
    }

    private static double Level(Point a, Point b) => Math.Sqrt(((a.X - b.X) * (a.X - b.X)) + ((a.Y - b.Y) * (a.Y - b.Y)));

    [GeneratedRegex(@"^([0-9][^(]*?)(?: level)? \(([^)]+) whole\)$")]
    private static partial Regex Part();

    // Common practice: what is written at a point on the pipe is written at that point, where its dimension ends.
    [Fact]
    public void The_note_of_a_dimension_point_is_led_to_the_point()
    {
        var sheet = First(Given.Millimetres("size: 6, schedule: 40, class: 150", "flange", "{go: north, by: 2200, to: point, note: wall of the culvert}", "{go: north, by: 1500, to: elbow}", "{go: up, by: 900, to: flange}"));
        var leader = sheet.Strokes.First(s => s.Id == "leg-1-1-note-label" && !s.IsFill);
        var pipe = sheet.Strokes.First(s => s.Id == "1-A" && s.Half > 0.29);
        var at = Nearest([leader.A, leader.B], pipe);
        // The extension lines of both dimensions run to that place.
        var extensions = sheet.Strokes.Where(s => s.Class.EndsWith("dimension", StringComparison.Ordinal) && s.Id is "leg-1-1" or "leg-1-2" && !s.IsFill && Sine(s, pipe) > 0.3).ToList();
        Assert.Equal(2, extensions.Where(s => Off(at, s) < 1).Select(s => s.Id).Distinct().Count());
    }

    // One fall goes on over three legs: its ratio stands once, and each leg has its level length and its fall.
    [Fact]
    public void The_ratio_of_a_fall_stands_once_for_legs_one_behind_the_other()
    {
        var words = Words(First(Given.Millimetres("size: 4, schedule: 40, class: 150", "cap", "{go: east, by: 2000, fall: 1:100, to: point}", "{go: east, by: 1500, fall: 1:100, to: point}", "{go: east, by: 1000, fall: 1:100, to: elbow}", "{go: north, by: 800, fall: 1:50, to: flange, holes from: up}")));
        Assert.Single(words, w => w.EndsWith("fall 1:100", StringComparison.Ordinal));
        Assert.Single(words, w => w.EndsWith("fall 1:50", StringComparison.Ordinal));
        Assert.Superset(new HashSet<string>(["2000 level, fall 20", "1500 level, fall 15", "1000 level, fall 10", "800 level, fall 16"], StringComparer.Ordinal), words.ToHashSet(StringComparer.Ordinal));
    }

    [Fact]
    public void What_is_drawn_as_the_same_box_has_its_name_beside_it()
    {
        var words = Words(First(Given.Millimetres("size: 1, schedule: 80, class: 300", "flange", "{go: north, by: 600, to: union, ends: threaded, face to face: 60}", "{go: north, by: 600, to: coupling, ends: threaded}", "{go: north, by: 600, to: in-line item, what: strainer, ends: threaded, face to face: 90}", "{go: north, by: 600, to: in-line item, what: steam trap, ends: threaded, face to face: 90}", "{go: north, by: 500, to: elbow, ends: threaded}", "{go: up, by: 400, to: open, ends: threaded}")));
        Assert.All(new[] { "TH union", "TH coupling", "strainer", "steam trap" }, name => Assert.Contains(name, words));
    }

    // A list that cannot tell its items apart is none: schedule, class, length; what has no item stands with its number on the picture.
    [Fact]
    public void The_list_beside_the_picture_tells_its_items_apart()
    {
        var words = Read(Given.Packet("""
            drawing: T-1
            line: {size: 2, schedule: 80, class: 300}
            shop: {root gap: 0}
            materials:
              - {item: 1, what: pipe, size: 2, schedule: 80, material: A106-B, quantity: 6 m}
              - {item: 2, what: stud bolt, size: 5/8, length: 90, material: A193-B7, quantity: 8}
            runs:
              - run: main
                start: {to: flange}
                legs:
                  - {go: north, by: 1500, to: elbow}
                  - {go: up, by: 900, to: flange}
            """)).SelectMany(s => s.Words).Where(w => !w.Class.StartsWith("isometric", StringComparison.Ordinal)).Select(w => w.Text).ToList();
        Assert.Contains("pipe, sch 80, A106-B", words);
        Assert.Contains("stud bolt, 90 mm, A193-B7", words);
        Assert.Contains(words, w => ElbowWithNumber().IsMatch(w));
    }

    [GeneratedRegex(@"elbow 90.*: C\d+$")]
    private static partial Regex ElbowWithNumber();

    // What the saw cuts for a bend is found on the isometric by the saw's own mark.
    [Fact]
    public void The_mark_of_a_bend_made_of_pipe_stands_at_the_bend()
    {
        var packet = Given.Millimetres("size: 3, schedule: 40, class: 150", "flange", "{go: north, by: 1500, to: bend, bend radius: 381, straight: 100}", "{go: up, by: 1500, to: flange}");
        var bend = Assert.Single(packet.Fabrication.MadeBends);
        Assert.Contains(bend.Piece, Words(First(packet)));
    }

    private const string WithPlug = """
        drawing: T-1
        line: {size: 6, schedule: 40, class: 150}
        shop: {root gap: 0}
        runs:
          - run: main
            start: {to: flange}
            legs:
              - {go: north, by: 1000, to: vent, size: 3/4, ends: threaded, valve: none}
              - {go: north, by: 1000, to: flange}
        """;

    // The plug is screwed into the outlet's upper end: its thread is there, and not at the header.
    [Fact]
    public void The_thread_of_a_plug_stands_at_the_end_of_its_outlet()
    {
        var packet = Given.Packet(WithPlug);
        var sheet = First(packet);
        Assert.Contains("plug", Words(sheet));
        var thread = Assert.Single(packet.Fabrication.Route.Joints, j => j.Kind == JointKind.Threaded);
        var bar = sheet.Strokes.First(s => s.Id == thread.Id);
        var header = sheet.Strokes.Where(s => s.Class.Contains("piece", StringComparison.Ordinal) && s.Half > 0.29).ToList();
        Assert.All(header, pipe => Assert.True(Distance(Middle(bar), pipe) > 3, string.Create(CultureInfo.InvariantCulture, $"{Distance(Middle(bar), pipe):0.0} mm from the header")));
    }

    // The house's law: a leader meets its thing at a point of it.
    [Fact]
    public void The_leader_of_an_end_begins_at_the_end()
    {
        var packet = Given.Millimetres("size: 6, schedule: 40, class: 150", "flange", "{go: north, by: 1500, to: elbow}", "{go: up, by: 1500, to: elbow}", "{go: east, by: 2000, to: weld}");
        var sheet = First(packet);
        foreach (var (id, part) in new[] { ("run-1-start-label", packet.Fabrication.Route.Components.First(c => c is Flange).Id), ("run-1-end-label", packet.Fabrication.Cuts[^1].Piece) })
        {
            var leader = sheet.Strokes.First(s => s.Id == id && !s.IsFill);
            var off = sheet.Strokes.Where(s => s.Id == part).Min(s => Math.Min(Distance(leader.A, s), Distance(leader.B, s)));
            Assert.True(off < 1.2, string.Create(CultureInfo.InvariantCulture, $"{id} begins {off:0.0} mm off {part}"));
        }
    }

    private static (double X, double Y) Middle(SheetReader.Stroke s) => ((s.A.X + s.B.X) / 2, (s.A.Y + s.B.Y) / 2);

    private static (double X, double Y) Nearest((double X, double Y)[] ends, SheetReader.Stroke to) => ends.MinBy(e => Distance(e, to));

    private static double Sine(SheetReader.Stroke a, SheetReader.Stroke b) =>
        Math.Abs(((a.B.X - a.A.X) * (b.B.Y - b.A.Y)) - ((a.B.Y - a.A.Y) * (b.B.X - b.A.X))) / (Length(a.A, a.B) * Length(b.A, b.B));

    private static double Length((double X, double Y) a, (double X, double Y) b) => Math.Sqrt(((b.X - a.X) * (b.X - a.X)) + ((b.Y - a.Y) * (b.Y - a.Y)));

    /// <summary>From a place to the stroke drawn on without end.</summary>
    private static double Off((double X, double Y) p, SheetReader.Stroke s) =>
        Math.Abs(((s.B.X - s.A.X) * (p.Y - s.A.Y)) - ((s.B.Y - s.A.Y) * (p.X - s.A.X))) / Length(s.A, s.B);

    private static double Distance((double X, double Y) p, SheetReader.Stroke s)
    {
        var (dx, dy) = (s.B.X - s.A.X, s.B.Y - s.A.Y);
        var t = Math.Clamp((((p.X - s.A.X) * dx) + ((p.Y - s.A.Y) * dy)) / Math.Max(1e-12, (dx * dx) + (dy * dy)), 0, 1);
        return Length(p, (s.A.X + (t * dx), s.A.Y + (t * dy)));
    }
}
