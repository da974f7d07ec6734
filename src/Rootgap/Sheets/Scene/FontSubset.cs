using System.Buffers.Binary;
using System.Text;

namespace Rootgap.Sheets;

/// <summary>A font file with only the outlines that are used; every glyph keeps its number, so that text written before the file still means the same.</summary>
internal static class FontSubset
{
    // What a reader of an embedded font needs (ISO 32000-1, 9.9); the hinting programs keep small text sharp on screens.
    private static readonly string[] Kept = ["cvt ", "fpgm", "glyf", "head", "hhea", "hmtx", "loca", "maxp", "prep"];

    public static byte[] Of(FontFace face, IEnumerable<ushort> glyphs)
    {
        var used = WithParts(face, glyphs);
        var (glyf, loca) = Outlines(face, used);
        var tables = Kept.Select(tag => (Tag: tag, Bytes: tag switch
        {
            "glyf" => glyf,
            "loca" => loca,
            "head" => Head(face),
            "hmtx" => Metrics(face, used),
            _ => face.TableBytes(tag).ToArray(),
        })).Where(t => t.Bytes.Length > 0).ToList();
        return Assemble(tables);
    }

    // A composite glyph names other glyphs: they come along.
    private static SortedSet<ushort> WithParts(FontFace face, IEnumerable<ushort> glyphs)
    {
        var used = new SortedSet<ushort> { 0 };
        var waiting = new Stack<ushort>(glyphs.Append((ushort)0));
        while (waiting.TryPop(out var glyph))
        {
            used.Add(glyph);
            var outline = face.Outline(glyph);
            if (outline.Length < 10 || BinaryPrimitives.ReadInt16BigEndian(outline) >= 0)
                continue;
            const int words = 0x1, scale = 0x8, more = 0x20, twoScales = 0x40, matrix = 0x80;
            for (int at = 10, flags = more; (flags & more) != 0;)
            {
                flags = BinaryPrimitives.ReadUInt16BigEndian(outline[at..]);
                var part = BinaryPrimitives.ReadUInt16BigEndian(outline[(at + 2)..]);
                if (!used.Contains(part))
                    waiting.Push(part);
                at += 4 + ((flags & words) != 0 ? 4 : 2)
                    + ((flags & scale) != 0 ? 2 : (flags & twoScales) != 0 ? 4 : (flags & matrix) != 0 ? 8 : 0);
            }
        }
        return used;
    }

    private static (byte[] Glyf, byte[] Loca) Outlines(FontFace face, SortedSet<ushort> used)
    {
        var loca = new byte[4 * (face.GlyphCount + 1)];
        using var glyf = new MemoryStream();
        for (var g = 0; g < face.GlyphCount; g++)
        {
            BinaryPrimitives.WriteUInt32BigEndian(loca.AsSpan(4 * g), (uint)glyf.Length);
            if (!used.Contains((ushort)g))
                continue;
            glyf.Write(face.Outline((ushort)g));
            while (glyf.Length % 4 != 0)
                glyf.WriteByte(0);
        }
        BinaryPrimitives.WriteUInt32BigEndian(loca.AsSpan(4 * face.GlyphCount), (uint)glyf.Length);
        return (glyf.ToArray(), loca);
    }

    private static byte[] Head(FontFace face)
    {
        var head = face.TableBytes("head").ToArray();
        head.AsSpan(8, 4).Clear(); // the sum over the whole file, set last
        BinaryPrimitives.WriteInt16BigEndian(head.AsSpan(50), 1); // long offsets in loca
        return head;
    }

    // Zeros for what is not used: they compress to nothing.
    private static byte[] Metrics(FontFace face, SortedSet<ushort> used)
    {
        var metrics = face.TableBytes("hmtx").ToArray();
        var full = BinaryPrimitives.ReadUInt16BigEndian(face.TableBytes("hhea")[34..]);
        for (var g = 0; g < full - 1; g++)
        {
            if (!used.Contains((ushort)g))
                metrics.AsSpan(4 * g, 4).Clear();
        }
        return metrics;
    }

    private static byte[] Assemble(List<(string Tag, byte[] Bytes)> tables)
    {
        var start = 12 + (16 * tables.Count);
        var file = new byte[start + tables.Sum(t => Padded(t.Bytes.Length))];
        var log = 31 - int.LeadingZeroCount(tables.Count);
        BinaryPrimitives.WriteUInt32BigEndian(file, 0x00010000);
        BinaryPrimitives.WriteUInt16BigEndian(file.AsSpan(4), (ushort)tables.Count);
        BinaryPrimitives.WriteUInt16BigEndian(file.AsSpan(6), (ushort)(16 << log));
        BinaryPrimitives.WriteUInt16BigEndian(file.AsSpan(8), (ushort)log);
        BinaryPrimitives.WriteUInt16BigEndian(file.AsSpan(10), (ushort)((16 * tables.Count) - (16 << log)));
        var (at, head) = (start, 0);
        for (var i = 0; i < tables.Count; i++)
        {
            var (tag, bytes) = tables[i];
            var record = file.AsSpan(12 + (16 * i));
            bytes.CopyTo(file, at);
            Encoding.ASCII.GetBytes(tag, record);
            BinaryPrimitives.WriteUInt32BigEndian(record[4..], Sum(file.AsSpan(at, Padded(bytes.Length))));
            BinaryPrimitives.WriteUInt32BigEndian(record[8..], (uint)at);
            BinaryPrimitives.WriteUInt32BigEndian(record[12..], (uint)bytes.Length);
            if (string.Equals(tag, "head", StringComparison.Ordinal))
                head = at;
            at += Padded(bytes.Length);
        }
        BinaryPrimitives.WriteUInt32BigEndian(file.AsSpan(head + 8), unchecked(0xB1B0AFBA - Sum(file)));
        return file;
    }

    private static int Padded(int length) => (length + 3) & ~3;

    private static uint Sum(ReadOnlySpan<byte> bytes)
    {
        var sum = 0u;
        for (var i = 0; i < bytes.Length; i += 4)
            sum = unchecked(sum + BinaryPrimitives.ReadUInt32BigEndian(bytes[i..]));
        return sum;
    }
}
