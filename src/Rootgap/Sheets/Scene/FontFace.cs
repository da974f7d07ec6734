using System.Buffers.Binary;
using System.Text;

namespace Rootgap.Sheets;

/// <summary>One of the two typefaces that every sheet is set in, read from the TrueType file inside the assembly. All measures are shares of the font's size.</summary>
/// <remarks>Table layouts: the OpenType specification (ISO/IEC 14496-22).</remarks>
public sealed class FontFace
{
    private static readonly Lazy<FontFace> LazyRegular = new(() => Load("DejaVuSansCondensed"));
    private static readonly Lazy<FontFace> LazyBold = new(() => Load("DejaVuSansCondensed-Bold"));

    private readonly byte[] _file;
    private readonly Dictionary<string, (int Offset, int Length)> _tables = new(StringComparer.Ordinal);
    private readonly ushort[] _advances;
    private readonly ushort[] _glyphs = new ushort[0x10000]; // by character of the basic plane
    private readonly Dictionary<int, ushort> _otherGlyphs = []; // by character beyond it

    private FontFace(string name, byte[] file)
    {
        (Name, _file) = (name, file);
        var tables = U16(4);
        for (var at = 12; at < 12 + (16 * tables); at += 16)
            _tables[Encoding.ASCII.GetString(file, at, 4)] = ((int)U32(at + 8), (int)U32(at + 12));

        var head = Table("head");
        UnitsPerEm = U16(head + 18);
        LongOffsets = I16(head + 50) != 0;
        Bounds = (I16(head + 36), I16(head + 38), I16(head + 40), I16(head + 42));
        var hhea = Table("hhea");
        Ascent = (double)I16(hhea + 4) / UnitsPerEm;
        Descent = -(double)I16(hhea + 6) / UnitsPerEm;
        GlyphCount = U16(Table("maxp") + 4);

        // The last advance holds for all glyphs after it.
        _advances = new ushort[GlyphCount];
        var (metrics, hmtx) = (U16(hhea + 34), Table("hmtx"));
        for (var g = 0; g < GlyphCount; g++)
            _advances[g] = U16(hmtx + (4 * Math.Min(g, metrics - 1)));

        ReadCharacters(Table("cmap"));
        CapHeight = ReadCapHeight();
    }

    public static FontFace Regular => LazyRegular.Value;

    public static FontFace Bold => LazyBold.Value;

    /// <summary>The font's name in files.</summary>
    public string Name { get; }

    /// <summary>How far accents reach above the baseline.</summary>
    public double Ascent { get; }

    /// <summary>How far letters reach below the baseline, positive.</summary>
    public double Descent { get; }

    /// <summary>Height of a capital H.</summary>
    public double CapHeight { get; }

    /// <summary>The TrueType file, for what draws letters by itself.</summary>
    public ReadOnlySpan<byte> File => _file;

    internal int UnitsPerEm { get; }

    internal int GlyphCount { get; }

    internal bool LongOffsets { get; }

    /// <summary>The box that holds every glyph, font units: left, bottom, right, top.</summary>
    internal (int Left, int Bottom, int Right, int Top) Bounds { get; }

    /// <summary>The glyph of a character; 0, an empty box, where the font has none.</summary>
    public ushort Glyph(Rune rune) => rune.IsBmp ? _glyphs[rune.Value] : _otherGlyphs.GetValueOrDefault(rune.Value);

    /// <summary>Advance width of a glyph, font units.</summary>
    internal ushort AdvanceOf(ushort glyph) => _advances[glyph];

    /// <summary>Width of a text on one line, as a share of the font's size. No kerning: the outputs switch it off.</summary>
    public double Advance(ReadOnlySpan<char> text)
    {
        var sum = 0;
        foreach (var rune in text.EnumerateRunes())
            sum += _advances[Glyph(rune)];
        return (double)sum / UnitsPerEm;
    }

    internal ReadOnlySpan<byte> TableBytes(string tag) =>
        _tables.TryGetValue(tag, out var table) ? _file.AsSpan(table.Offset, table.Length) : default;

    /// <summary>The outline of a glyph as it stands in the file; empty for a space.</summary>
    internal ReadOnlySpan<byte> Outline(ushort glyph)
    {
        var (loca, glyf) = (Table("loca"), Table("glyf"));
        var (from, to) = LongOffsets
            ? ((int)U32(loca + (4 * glyph)), (int)U32(loca + (4 * glyph) + 4))
            : (2 * U16(loca + (2 * glyph)), 2 * U16(loca + (2 * glyph) + 2));
        return _file.AsSpan(glyf + from, to - from);
    }

    private static FontFace Load(string name)
    {
        using var stream = typeof(FontFace).Assembly.GetManifestResourceStream(name + ".ttf")
            ?? throw new InvalidOperationException($"The font {name}.ttf is missing from the assembly.");
        var file = new byte[stream.Length];
        stream.ReadExactly(file);
        return new(name, file);
    }

    // The file's capital height is only given from version 2 of its OS/2 table on; the top of an H is the same thing.
    private double ReadCapHeight()
    {
        var os2 = TableBytes("OS/2");
        var stated = os2.Length >= 90 ? BinaryPrimitives.ReadInt16BigEndian(os2[88..]) : (short)0;
        var top = stated > 0 ? stated : BinaryPrimitives.ReadInt16BigEndian(Outline(_glyphs['H'])[8..]);
        return (double)top / UnitsPerEm;
    }

    /// <summary>From the subtable that has every character (format 12); the fonts that are shipped have it, and it holds what their shorter one does.</summary>
    private void ReadCharacters(int cmap)
    {
        for (var i = 0; i < U16(cmap + 2); i++)
        {
            var record = cmap + 4 + (8 * i);
            var at = cmap + (int)U32(record + 4);
            if (U16(record) == 3 && U16(at) == 12)
                ReadGroups(at);
        }
    }

    private void ReadGroups(int at)
    {
        for (var i = 0; i < U32(at + 12); i++)
        {
            var group = at + 16 + (12 * i);
            var (first, last, glyph) = ((int)U32(group), (int)U32(group + 4), (int)U32(group + 8));
            for (var c = first; c <= last; c++, glyph++)
            {
                if (c < 0x10000)
                    _glyphs[c] = (ushort)glyph;
                else
                    _otherGlyphs[c] = (ushort)glyph;
            }
        }
    }

    private int Table(string tag) => _tables[tag].Offset;

    private ushort U16(int at) => BinaryPrimitives.ReadUInt16BigEndian(_file.AsSpan(at));

    private short I16(int at) => BinaryPrimitives.ReadInt16BigEndian(_file.AsSpan(at));

    private uint U32(int at) => BinaryPrimitives.ReadUInt32BigEndian(_file.AsSpan(at));
}
