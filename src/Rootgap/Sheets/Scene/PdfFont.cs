using System.Globalization;
using System.Security.Cryptography;
using System.Text;

namespace Rootgap.Sheets;

/// <summary>One typeface of a PDF file: notes which glyphs the pages use and describes itself at the end.</summary>
internal sealed class PdfFont(FontFace face)
{
    // By glyph: the character to copy or search for; the lowest where several share a glyph.
    private readonly SortedDictionary<ushort, int> _used = [];
    private readonly bool[] _seen = new bool[0x10000];

    public bool IsUsed => _used.Count > 0;

    /// <summary>The glyph of a character, noted as used.</summary>
    public ushort Use(Rune rune)
    {
        var glyph = face.Glyph(rune);
        if (rune.IsBmp && _seen[rune.Value])
            return glyph;
        if (rune.IsBmp)
            _seen[rune.Value] = true;
        _used[glyph] = glyph == 0 ? 0xfffd : Math.Min(rune.Value, _used.GetValueOrDefault(glyph, int.MaxValue));
        return glyph;
    }

    /// <summary>Writes the font's objects (ISO 32000-1, 9.7: a Type 0 font with Identity-H codes that are glyph numbers) and gives the first one's body.</summary>
    public string Describe(Func<string, int> addObject, Func<string, byte[], int> addStream)
    {
        var file = FontSubset.Of(face, _used.Keys);
        var name = Tag(file) + "+" + face.Name;
        var fontFile = addStream(Text($"/Length1 {file.Length}"), file);
        var unicode = addStream("", Encoding.ASCII.GetBytes(UnicodeMap()));
        var (left, bottom, right, top) = face.Bounds;
        var weight = ReferenceEquals(face, FontFace.Bold) ? 140 : 80;
        var descriptor = addObject(Text($"<</Type/FontDescriptor/FontName/{name}/Flags 4/FontBBox[{PerMille(left)} {PerMille(bottom)} {PerMille(right)} {PerMille(top)}]/ItalicAngle 0/Ascent {(int)Math.Round(face.Ascent * 1000)}/Descent {-(int)Math.Round(face.Descent * 1000)}/CapHeight {(int)Math.Round(face.CapHeight * 1000)}/StemV {weight}/FontFile2 {fontFile} 0 R>>"));
        var descendant = addObject(Text($"<</Type/Font/Subtype/CIDFontType2/BaseFont/{name}/CIDSystemInfo<</Registry(Adobe)/Ordering(Identity)/Supplement 0>>/FontDescriptor {descriptor} 0 R/DW 600/W[{Widths()}]/CIDToGIDMap/Identity>>"));
        return Text($"<</Type/Font/Subtype/Type0/BaseFont/{name}/Encoding/Identity-H/DescendantFonts[{descendant} 0 R]/ToUnicode {unicode} 0 R>>");
    }

    private int PerMille(int units) => (int)Math.Round(units * 1000.0 / face.UnitsPerEm);

    // Runs of neighbouring glyphs: first [width width ...].
    private string Widths()
    {
        var widths = new StringBuilder();
        var last = -2;
        foreach (var glyph in _used.Keys)
        {
            if (glyph != last + 1)
                widths.Append(CultureInfo.InvariantCulture, $"{(last < 0 ? "" : "]")}{glyph}[");
            else
                widths.Append(' ');
            widths.Append((face.AdvanceOf(glyph) * 1000.0 / face.UnitsPerEm).ToString("0.##", CultureInfo.InvariantCulture));
            last = glyph;
        }
        return widths.Append(']').ToString();
    }

    private string UnicodeMap()
    {
        var map = new StringBuilder("""
            /CIDInit/ProcSet findresource begin
            12 dict begin
            begincmap
            /CIDSystemInfo<</Registry(Adobe)/Ordering(UCS)/Supplement 0>>def
            /CMapName/Adobe-Identity-UCS def
            /CMapType 2 def
            1 begincodespacerange
            <0000><FFFF>
            endcodespacerange

            """.ReplaceLineEndings("\n"));
        foreach (var block in _used.Chunk(100))
        {
            map.Append(CultureInfo.InvariantCulture, $"{block.Length} beginbfchar\n");
            foreach (var (glyph, character) in block)
            {
                map.Append(CultureInfo.InvariantCulture, $"<{glyph:X4}><");
                foreach (var unit in char.ConvertFromUtf32(character))
                    map.Append(CultureInfo.InvariantCulture, $"{(int)unit:X4}");
                map.Append(">\n");
            }
            map.Append("endbfchar\n");
        }
        return map.Append("endcmap\nCMapName currentdict/CMap defineresource pop\nend\nend\n").ToString();
    }

    // Six capitals that mark a subset (ISO 32000-1, 9.6.4); from its content, so that the same text gives the same file.
    private static string Tag(byte[] file) =>
        string.Concat(SHA256.HashData(file).Take(6).Select(b => (char)('A' + (b % 26))));

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
