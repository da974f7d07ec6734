using System.Globalization;
using Rootgap.Measure;
using Rootgap.Packets;
using Rootgap.Sheets;
using Rootgap.Tests.Samples;
using UglyToad.PdfPig;

namespace Rootgap.Tests.Sheets.Isometrics;

/// <summary>What must hold for the isometric of any drawing, read back from the files by readers of others.</summary>
[Trait("pace", "slow")]
public class IsometricTest
{
    /// <summary>Random drawings of 1 to 60 legs, always the same ones. ROOTGAP_DRAWINGS=1000 takes more.</summary>
    private static readonly Lazy<IReadOnlyList<(Sketch Sketch, Packet Packet, List<Scene> Scenes, List<SheetReader> Sheets)>> Drawings = new(() =>
    {
        var count = int.TryParse(Environment.GetEnvironmentVariable("ROOTGAP_DRAWINGS"), NumberStyles.None, CultureInfo.InvariantCulture, out var n) ? n : 10;
        return [.. Enumerable.Range(1, count).Select(seed =>
        {
            var bytes = new byte[1200];
            new Random(seed).NextBytes(bytes);
            var sketch = SketchMaking.Of(new Choices(bytes), 60);
            var packet = sketch.Packet();
            var scenes = Sheets(packet);
            return (sketch, packet, scenes, Read(scenes));
        })];
    });

    private static List<Scene> Sheets(Packet packet) =>
        [.. new Booklet("x", IsometricPages.Of(packet.ToJob(Paper.A4), withLists: true)).Scenes()];

    private static List<SheetReader> Read(List<Scene> scenes) => [.. scenes.Select(s => new SheetReader(SvgWriter.Write(s)))];

    private static bool IsLine(string @class) => @class.Contains("piece", StringComparison.Ordinal) || @class.Contains("component", StringComparison.Ordinal) || @class.Contains("joint", StringComparison.Ordinal);

    [Fact]
    public void No_words_lie_on_other_words_or_across_the_line()
    {
        foreach (var drawing in Drawings.Value)
            Check(drawing.Sheets);
    }

    // The house's law is that no leader runs through another; where a sheet is full some do. One in sixteen is what the samples have, one in eight what they had.
    [Fact]
    public void Few_leaders_run_through_others_on_the_samples()
    {
        var (all, crossed) = (0, 0);
        foreach (var sheet in SampleFile.Clean.SelectMany(s => Read(Sheets(s.Packet()))))
        {
            var leaders = sheet.Strokes.Where(s => !s.IsFill && s.Half < 0.14 && s.Id.EndsWith("-label", StringComparison.Ordinal)).GroupBy(s => s.Id).Select(g => g.MinBy(s => s.Order)!).ToList();
            all += leaders.Count;
            for (var i = 0; i < leaders.Count; i++)
                crossed += leaders.Skip(i + 1).Count(other => SheetReader.Overlap(SheetReader.Room(leaders[i].A, leaders[i].B, 0.02), SheetReader.Room(other.A, other.B, 0.02)));
        }

        Assert.True(all > 400, $"{all} leaders are too few to judge");
        Assert.True(crossed * 13 < all, $"{crossed} of {all} leaders run through others");
    }

    [Fact]
    public void No_words_lie_on_other_words_or_across_the_line_in_any_sample()
    {
        foreach (var sample in SampleFile.All)
            Check(Read(Sheets(sample.Packet())));
    }

    private static void Check(List<SheetReader> sheets)
    {
        foreach (var (sheet, n) in sheets.Select((s, i) => (s, i + 1)))
        {
            for (var a = 0; a < sheet.Words.Count; a++)
            {
                for (var b = a + 1; b < sheet.Words.Count; b++)
                    Assert.False(SheetReader.Overlap(sheet.Words[a].Corners, sheet.Words[b].Corners), $"sheet {n}: \"{sheet.Words[a].Text}\" lies on \"{sheet.Words[b].Text}\"");
            }

            foreach (var stroke in sheet.Strokes.Where(s => IsLine(s.Class)))
            {
                var room = SheetReader.Room(stroke.A, stroke.B, stroke.Half);
                foreach (var (text, corners, _, _, _) in sheet.Words)
                    Assert.False(SheetReader.Overlap(corners, room), $"sheet {n}: \"{text}\" lies across {stroke.Id}");
            }

            Assert.Equal(sheet.Ids.Count, sheet.Ids.Distinct(StringComparer.Ordinal).Count());
        }
    }

    // Source: format.md, the packet's joints, pieces, items, spools and the drawing's dimensions. Nothing may be missing on paper.
    [Fact]
    public void Everything_of_the_packet_is_on_the_sheets() => Assert.All(Drawings.Value, drawing =>
    {
        var (sketch, packet, _, sheets) = drawing;
        var f = packet.Fabrication;
        var words = sheets.SelectMany(s => s.Words).Where(w => w.Class.StartsWith("isometric", StringComparison.Ordinal)).Select(w => w.Text).ToHashSet(StringComparer.Ordinal);
        foreach (var joint in f.Route.Joints)
            Assert.Contains(joint.Id, words);
        foreach (var cut in f.Cuts)
            Assert.Contains(cut.Piece, words);
        foreach (var spool in f.Spools)
            Assert.Contains("Spool " + spool.Name, words);
        foreach (var component in f.Route.Components)
            Assert.Contains(component.Item?.Item.ToString(CultureInfo.InvariantCulture) ?? component.Id, words);
        var text = string.Join('\n', words);
        foreach (var run in f.Route.Runs)
        {
            foreach (var mm in run.Distances)
            {
                var length = sketch.Units == Units.Inches ? LengthText.FeetInches(mm) : mm.ToString("0.#", CultureInfo.InvariantCulture);
                Assert.Contains(length, text, StringComparison.Ordinal);
            }
        }

        var drawn = sheets.SelectMany(s => s.Ids).ToHashSet(StringComparer.Ordinal);
        Assert.Superset(f.Route.Components.Select(c => c.Id).Where(id => f.Route.Components.First(c => c.Id == id).Ware != Rootgap.Drawings.Ware.Gasket).ToHashSet(StringComparer.Ordinal), drawn);
        Assert.Superset(f.Route.Joints.Select(j => j.Id).Concat(f.Cuts.Select(c => c.Piece)).ToHashSet(StringComparer.Ordinal), drawn);
    });

    [Fact]
    public void At_most_one_label_in_a_hundred_is_only_listed()
    {
        var (labels, listed) = (0, 0);
        foreach (var sheet in Drawings.Value.SelectMany(d => d.Sheets))
        {
            labels += sheet.Ids.Count(i => i.EndsWith("-label", StringComparison.Ordinal) || i.StartsWith("leg-", StringComparison.Ordinal));
            listed += sheet.Words.Count(w => w.Class.EndsWith("/list", StringComparison.Ordinal));
        }

        Assert.True(labels > 500, "too few labels to judge");
        Assert.True(listed * 100 <= labels, $"{listed} of {labels} labels found no room");
    }

    // Source: ISO 5456-3, isometric axonometry: the three axes make 120 degrees on paper and have one scale, so a direction (e, n, u) has the
    // slope of e (cos 30, sin 30) + n (cos 30, -sin 30) + u (0, -1), or of the same turned by quarters about the upright; where a skew leg would look straight, with one of the three stretched on all of the sheet (common practice).
    [Fact]
    public void Every_leg_has_its_true_direction_on_paper() => Assert.All(Drawings.Value, drawing =>
    {
        var (_, packet, _, sheets) = drawing;
        var pipes = packet.Fabrication.Cuts.ToDictionary(c => c.Piece, c => c.Pipe.Direction, StringComparer.Ordinal);
        foreach (var sheet in sheets)
        {
            // Open ends and where a line goes on have short strokes of their own.
            var strokes = sheet.Strokes.Where(s => s.Class.Contains("piece", StringComparison.Ordinal) && s.Half > 0.29 && Length(s.A, s.B) > 2).ToList();
            var isTrue = Enumerable.Range(0, 4).SelectMany(quarter => Stretches.Select(by => (quarter, by))).Any(view => strokes.TrueForAll(s =>
            {
                var (quarter, by) = view;
                var v = new Rootgap.Measure.Vector(pipes[s.Id].X * by.East, pipes[s.Id].Y * by.North, pipes[s.Id].Z * by.Up);
                var (e, n) = quarter switch { 0 => (v.X, v.Y), 1 => (-v.Y, v.X), 2 => (-v.X, -v.Y), _ => (v.Y, -v.X) };
                var (x, y) = ((e + n) * Math.Cos(Math.PI / 6), ((e - n) * Math.Sin(Math.PI / 6)) - v.Z);
                if (Math.Sqrt((x * x) + (y * y)) < 0.05)
                    return true;
                var off = Math.Abs(Math.IEEERemainder(Math.Atan2(s.B.Y - s.A.Y, s.B.X - s.A.X) - Math.Atan2(y, x), Math.PI));
                return off < 0.5 * Math.PI / 180;
            }));
            Assert.True(isTrue, "a leg is off its direction in every view");
        }
    });

    private static readonly (double East, double North, double Up)[] Stretches = [(1, 1, 1), .. new[] { 0.75, 1.35, 1.8 }.SelectMany(by => new[] { (by, 1.0, 1.0), (1.0, by, 1.0), (1.0, 1.0, by) })];

    private static double Length((double X, double Y) a, (double X, double Y) b) => Math.Sqrt(((b.X - a.X) * (b.X - a.X)) + ((b.Y - a.Y) * (b.Y - a.Y)));

    // Source: the PDF's own glyph places as PdfPig reads them.
    [Fact]
    public void The_PDF_has_the_same_words_in_the_same_places_and_no_sign_on_another() => Assert.All(Drawings.Value.Take(5), drawing =>
    {
        var scenes = drawing.Scenes;
        using var stream = new MemoryStream();
        PdfWriter.Write(stream, "x", scenes);
        using var pdf = PdfDocument.Open(stream.ToArray());
        foreach (var (page, scene) in pdf.GetPages().Zip(scenes))
        {
            const double Point = 25.4 / 72;
            var words = new SheetReader(SvgWriter.Write(scene)).Words;
            var letters = page.Letters.Where(l => l.Value.Trim().Length > 0).ToList();
            Assert.Equal(words.Sum(w => w.Text.Count(c => !char.IsWhiteSpace(c))), letters.Count);
            foreach (var letter in letters)
            {
                var (x, y) = (letter.StartBaseLine.X * Point, (page.Height - letter.StartBaseLine.Y) * Point);
                var at = SheetReader.Room((x, y), (x, y), 0.3);
                Assert.True(words.Exists(w => w.Text.Contains(letter.Value, StringComparison.Ordinal) && SheetReader.Overlap(w.Corners, at)), $"\"{letter.Value}\" at {x:0.0}, {y:0.0} is not where the SVG has it");
            }

            var glyphs = letters.Select(l => l.BoundingBox).Select(r => new (double X, double Y)[] { (r.BottomLeft.X, r.BottomLeft.Y), (r.BottomRight.X, r.BottomRight.Y), (r.TopRight.X, r.TopRight.Y), (r.TopLeft.X, r.TopLeft.Y) }).ToList();
            for (var a = 0; a < glyphs.Count; a++)
            {
                for (var b = a + 1; b < glyphs.Count; b++)
                {
                    if (Math.Abs(glyphs[a][0].X - glyphs[b][0].X) < 20 && Math.Abs(glyphs[a][0].Y - glyphs[b][0].Y) < 20)
                        Assert.False(SheetReader.Overlap(glyphs[a], glyphs[b], 0.4), $"\"{letters[a].Value}\" lies on \"{letters[b].Value}\"");
                }
            }
        }
    });

    [Fact]
    public void The_same_drawing_gives_the_same_bytes() => Assert.All(Drawings.Value.Take(5), drawing =>
        Assert.Equal(string.Concat(drawing.Scenes.Select(SvgWriter.Write)), string.Concat(Sheets(drawing.Sketch.Packet()).Select(SvgWriter.Write))));

    // Small print is a fault: 2.5 mm is the least that drawings are lettered with (ISO 3098-1's series; the house rule of the sheets).
    [Fact]
    public void No_words_are_smaller_than_2_5_mm()
    {
        foreach (var (text, c, _, _, _) in Drawings.Value.SelectMany(d => d.Sheets).SelectMany(s => s.Words))
            Assert.True(Length(c[0], c[3]) > 2.48, $"\"{text}\" is only {Length(c[0], c[3]):0.00} mm high");
    }

    // Where two parts of the line cross on paper, the rear one is interrupted (ISO 6412-1, crossings without connection): no two strokes of pipe cross.
    [Fact]
    public void Of_two_lines_that_cross_the_rear_one_is_broken()
    {
        foreach (var sheet in Drawings.Value.SelectMany(d => d.Sheets))
        {
            var strokes = sheet.Strokes.Where(s => s.Class.Contains("piece", StringComparison.Ordinal) && s.Half > 0.29).ToList();
            for (var i = 0; i < strokes.Count; i++)
            {
                for (var j = i + 1; j < strokes.Count; j++)
                {
                    var (a, b) = (strokes[i], strokes[j]);
                    Assert.False(a.Id != b.Id && SheetReader.Overlap(SheetReader.Room(Inset(a.A, a.B), Inset(a.B, a.A), 0.05), SheetReader.Room(Inset(b.A, b.B), Inset(b.B, b.A), 0.05)), $"{a.Id} and {b.Id} run through each other");
                }
            }
        }

        static (double, double) Inset((double X, double Y) from, (double X, double Y) to) => (from.X + ((to.X - from.X) * 0.02), from.Y + ((to.Y - from.Y) * 0.02));
    }
}
