using System.Buffers.Binary;
using System.Collections.Immutable;
using System.IO.Compression;
using System.Text;

namespace Rootgap.Sheets;

/// <summary>A scene as a PNG picture. Lines and letters are the same as in SVG and PDF; nothing but this assembly is needed to draw them.</summary>
/// <remarks>PNG: ISO/IEC 15948.</remarks>
public static class PngWriter
{
    private static readonly uint[] Checks = [.. Enumerable.Range(0, 256).Select(n => (uint)n).Select(n =>
    {
        for (var bit = 0; bit < 8; bit++)
            n = (n & 1) != 0 ? 0xEDB88320 ^ (n >> 1) : n >> 1;
        return n;
    })];

    /// <summary>Writes the page at a fineness of 20 to 1200 dots per inch (96 on a screen, 150 to read, 300 to print).</summary>
    public static void Write(Scene scene, double dotsPerInch, Stream stream)
    {
        if (dotsPerInch is not (>= 20 and <= 1200))
            throw new ArgumentOutOfRangeException(nameof(dotsPerInch), dotsPerInch, "A picture has 20 to 1200 dots per inch.");
        var scale = dotsPerInch / 25.4;
        var bitmap = new Bitmap((int)Math.Round(scene.Paper.Width * scale), (int)Math.Round(scene.Paper.Height * scale));
        var page = new PngPage(bitmap, Placement.Scale(scale));
        foreach (var mark in scene.Marks)
            mark.DrawOn(page);
        WriteFile(bitmap, scale * 1000, stream);
    }

    private static void WriteFile(Bitmap bitmap, double dotsPerMetre, Stream stream)
    {
        stream.Write([0x89, (byte)'P', (byte)'N', (byte)'G', 13, 10, 26, 10]);
        var header = new byte[13];
        BinaryPrimitives.WriteInt32BigEndian(header, bitmap.Width);
        BinaryPrimitives.WriteInt32BigEndian(header.AsSpan(4), bitmap.Height);
        (header[8], header[9]) = (8, 2); // eight bits each of red, green and blue
        Chunk("IHDR", header, stream);
        var size = new byte[9];
        BinaryPrimitives.WriteInt32BigEndian(size, (int)Math.Round(dotsPerMetre));
        BinaryPrimitives.WriteInt32BigEndian(size.AsSpan(4), (int)Math.Round(dotsPerMetre));
        size[8] = 1; // per metre
        Chunk("pHYs", size, stream);
        Chunk("IDAT", Packed(bitmap), stream);
        Chunk("IEND", [], stream);
    }

    // Each row as what differs from the row above (filter 2): most of a sheet is white.
    private static byte[] Packed(Bitmap bitmap)
    {
        using var packed = new MemoryStream();
        using (var zlib = new ZLibStream(packed, CompressionLevel.Optimal, leaveOpen: true))
        {
            var stride = bitmap.Width * 3;
            var row = new byte[stride + 1];
            row[0] = 2;
            for (var y = 0; y < bitmap.Height; y++)
            {
                var (here, above) = (y * stride, (y - 1) * stride);
                for (var x = 0; x < stride; x++)
                    row[x + 1] = (byte)(bitmap.Pixels[here + x] - (y == 0 ? 0 : bitmap.Pixels[above + x]));
                zlib.Write(row);
            }
        }
        return packed.ToArray();
    }

    private static void Chunk(string name, byte[] data, Stream stream)
    {
        var chunk = new byte[data.Length + 12];
        BinaryPrimitives.WriteInt32BigEndian(chunk, data.Length);
        Encoding.ASCII.GetBytes(name, chunk.AsSpan(4));
        data.CopyTo(chunk, 8);
        var check = uint.MaxValue;
        foreach (var b in chunk.AsSpan(4, data.Length + 4))
            check = Checks[(check ^ b) & 0xff] ^ (check >> 8);
        BinaryPrimitives.WriteUInt32BigEndian(chunk.AsSpan(data.Length + 8), ~check);
        stream.Write(chunk);
    }

    private sealed class PngPage(Bitmap bitmap, Placement placement) : IBackEnd
    {
        // Finer than the eye: a curve is replaced by straight parts that stay this near to it, pixels.
        private const double Flatness = 0.05;

        private readonly Dictionary<(FontFace, ushort), ImmutableArray<Segment>> _glyphs = [];
        private Placement _placement = placement;

        public void Draw(Fill fill) => FillArea(fill.Shape.Segments, _placement, fill.Ink);

        public void Draw(Text text)
        {
            var (style, face) = (text.Style, text.Style.Face);
            var perUnit = style.Em / face.UnitsPerEm;
            var x = -text.Lead;
            foreach (var rune in text.Content.EnumerateRunes())
            {
                var glyph = face.Glyph(rune);
                if (!_glyphs.TryGetValue((face, glyph), out var outline))
                    _glyphs[(face, glyph)] = outline = GlyphOutline.Of(face, glyph);
                var letter = new Placement(perUnit, 0, 0, -perUnit, x, 0)
                    .Then(Placement.Turn(text.Turn)).Then(Placement.Move(text.At.X, text.At.Y)).Then(_placement);
                AddEdges(outline, letter);
                x += face.AdvanceOf(glyph) * perUnit;
            }
            bitmap.Fill(style.Ink);
        }

        public void Draw(Group group)
        {
            var outside = _placement;
            _placement = group.Placement.Then(outside);
            foreach (var mark in group.Marks)
                mark.DrawOn(this);
            _placement = outside;
        }

        // Every straight part is a band, every corner and end a disc, all running the same way round, so that together they are one area.
        public void Draw(Stroke stroke)
        {
            var scale = Math.Sqrt(Math.Abs((_placement.A * _placement.D) - (_placement.B * _placement.C)));
            // A line thinner than a pixel would fade.
            var half = Math.Max(stroke.Style.Width * scale, 0.8) / 2;
            var disc = Math.Clamp((int)Math.Ceiling(Math.PI / Math.Acos(1 - Math.Min(0.5, Flatness / half))), 6, 90);
            foreach (var line in Polylines(stroke.Shape.Segments, _placement).SelectMany(l => Dashes(l, stroke.Style.Pattern.ToArray(), scale)))
            {
                for (var i = 0; i < line.Count; i++)
                {
                    AddDisc(line[i], half, disc);
                    if (i > 0 && line[i - 1] != line[i])
                        AddBand(line[i - 1], line[i], half);
                }
            }
            bitmap.Fill(stroke.Style.Ink);
        }

        private void FillArea(ImmutableArray<Segment> segments, Placement at, Ink ink)
        {
            AddEdges(segments, at);
            bitmap.Fill(ink);
        }

        private void AddEdges(ImmutableArray<Segment> segments, Placement at)
        {
            foreach (var line in Polylines(segments, at))
            {
                for (var i = 0; i < line.Count; i++)
                    bitmap.Edge(line[i], line[(i + 1) % line.Count]);
            }
        }

        private void AddBand(Spot a, Spot b, double half)
        {
            var (dx, dy) = ((b.X - a.X) * half / a.To(b), (b.Y - a.Y) * half / a.To(b));
            Span<Spot> corners = [a.Moved(dy, -dx), b.Moved(dy, -dx), b.Moved(-dy, dx), a.Moved(-dy, dx)];
            for (var i = 0; i < 4; i++)
                bitmap.Edge(corners[i], corners[(i + 1) % 4]);
        }

        private void AddDisc(Spot centre, double radius, int sides)
        {
            var at = centre.Polar(radius, 0);
            for (var i = 1; i <= sides; i++)
            {
                var next = centre.Polar(radius, 2 * Math.PI * (i % sides) / sides);
                bitmap.Edge(at, next);
                at = next;
            }
        }

        private static List<List<Spot>> Polylines(ImmutableArray<Segment> segments, Placement placement)
        {
            var lines = new List<List<Spot>>();
            foreach (var s in segments)
            {
                var to = placement.Of(s.To);
                if (!double.IsFinite(to.X + to.Y))
                    throw new ArgumentOutOfRangeException(nameof(segments), s.To, "A place on a sheet must be a finite number of millimetres.");
                if (s.Step == Step.Move)
                    lines.Add([to]);
                else if (s.Step == Step.Curve)
                    Flatten(lines[^1], placement.Of(s.Control1), placement.Of(s.Control2), to);
                else
                    lines[^1].Add(to);
            }
            return lines;
        }

        // The second differences of a cubic bound how far it bends away from its chords (common practice in drawing curves).
        private static void Flatten(List<Spot> line, Spot b, Spot c, Spot d)
        {
            var a = line[^1];
            var bend = Math.Max(Bend(a, b, c), Bend(b, c, d));
            var parts = Math.Clamp((int)Math.Ceiling(Math.Sqrt(0.75 * bend / Flatness)), 1, 200);
            for (var i = 1; i <= parts; i++)
            {
                var t = (double)i / parts;
                var (p, q, r) = (a.Toward(b, t), b.Toward(c, t), c.Toward(d, t));
                line.Add(i == parts ? d : p.Toward(q, t).Toward(q.Toward(r, t), t));
            }

            static double Bend(Spot a, Spot b, Spot c) => new Spot(a.X - b.X, a.Y - b.Y).To(new(b.X - c.X, b.Y - c.Y));
        }

        private static IEnumerable<List<Spot>> Dashes(List<Spot> line, double[] pattern, double scale)
        {
            if (pattern.Length == 0)
            {
                yield return line;
                yield break;
            }
            var (part, left, drawn) = (0, pattern[0] * scale, new List<Spot> { line[0] });
            for (var i = 1; i < line.Count; i++)
            {
                var (at, to) = (line[i - 1], line[i]);
                for (var rest = at.To(to); rest > 0;)
                {
                    var step = Math.Min(left, rest);
                    at = at.Toward(to, step / rest);
                    (left, rest) = (left - step, rest - step);
                    if (part % 2 == 0)
                        drawn.Add(at);
                    if (left > 0)
                        continue;
                    if (part % 2 == 0)
                        yield return drawn;
                    part = (part + 1) % pattern.Length;
                    (left, drawn) = (pattern[part] * scale, [at]);
                }
            }
            if (part % 2 == 0)
                yield return drawn;
        }
    }
}
