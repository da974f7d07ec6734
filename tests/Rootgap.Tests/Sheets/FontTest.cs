using Rootgap.Sheets;
using UglyToad.PdfPig.Fonts.TrueType;
using UglyToad.PdfPig.Fonts.TrueType.Parser;
using System.Text;

namespace Rootgap.Tests.Sheets;

public class FontTest
{
    private static TrueTypeFont Independent(string name) =>
        TrueTypeFontParser.Parse(new TrueTypeDataBytes(File.ReadAllBytes(Repository.At("src", "Rootgap", "Sheets", "Fonts", name + ".ttf"))));

    // Source: the same files read by PdfPig's own TrueType parser.
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Every_character_is_as_wide_as_another_reader_of_the_font_finds_it(bool bold)
    {
        var face = bold ? FontFace.Bold : FontFace.Regular;
        var other = Independent(face.Name);
        var known = 0;
        for (var c = ' '; c < 0xd800; c++)
        {
            // There the other reader falls back on the file's table for another system, whose codes mean other letters.
            if (c is >= (char)0x7f and < (char)0xa0)
                continue;
            var glyph = face.Glyph(new Rune(c));
            var there = other.TableRegister.CMapTable.TryGetGlyphIndex(c, out var theirs);
            Assert.Equal(there ? theirs : 0, glyph);
            if (glyph == 0)
                continue;
            known++;
            Assert.Equal(other.TableRegister.HorizontalMetricsTable.GetAdvanceWidth(theirs) / 2048.0, face.Advance(c.ToString()), 9);
        }
        Assert.InRange(known, 2000, 6000);
    }

    // Source: the advances in DejaVu Sans Condensed 2.37 as fontTools 4.38 lists them, 2048 to the em:
    // 1450 + 1172 + 847 + 585 + 1544 + 585 + 1172 + 1786 + 585 + 1170 + 1129 + 1170.
    [Fact]
    public void A_word_is_as_wide_as_the_sum_of_its_published_advances()
    {
        Assert.Equal(13195, FontFace.Regular.Advance("Ø6\" × 3½ gap") * 2048, 6);
    }

    [Fact]
    public void Every_sign_of_the_trade_is_in_both_faces()
    {
        foreach (var rune in "⌀Ø½⅜⅝⅞⁄′″°±×÷−–—→←↑↓↗↘≤≥≈Δαβµ²³·•…☐☑✓éüßñŁЖ".EnumerateRunes())
        {
            Assert.NotEqual(0, FontFace.Regular.Glyph(rune));
            Assert.NotEqual(0, FontFace.Bold.Glyph(rune));
        }
    }

    // Source: PdfPig's box of the letter H in the same files.
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Height_of_lettering_is_the_height_of_a_capital(bool bold)
    {
        var style = new TextStyle(3.5, bold);
        Assert.True(Independent(style.Face.Name).TryGetBoundingBox('H', out var box));
        Assert.Equal(3.5, style.Em * box.Height / 2048, 0.002);
    }

    // Source: the outlines of the whole file, by PdfPig. É, ½ and Å are made of parts that are other glyphs.
    [Fact]
    public void Letters_made_of_parts_keep_their_parts_in_the_font_that_goes_into_a_file()
    {
        var whole = Independent("DejaVuSansCondensed");
        var glyphs = "É½Åg".EnumerateRunes().Select(FontFace.Regular.Glyph).ToList();
        var bytes = FontSubset.Of(FontFace.Regular, glyphs);
        Assert.InRange(bytes.Length, 10_000, 80_000);
        var part = TrueTypeFontParser.Parse(new TrueTypeDataBytes(bytes));
        foreach (var glyph in glyphs)
        {
            Assert.True(whole.TryGetPath(glyph, g => g, out var expected));
            Assert.True(part.TryGetPath(glyph, g => g, out var found));
            Assert.Equal(expected.SelectMany(p => p.Commands).Count(), found.SelectMany(p => p.Commands).Count());
            Assert.Equal(expected.Select(p => p.GetBoundingRectangle()), found.Select(p => p.GetBoundingRectangle()));
        }
        Assert.False(part.TryGetPath(FontFace.Regular.Glyph(new Rune('W')), g => g, out var unused) && unused.Count > 0);
    }

    [Fact]
    public void A_character_beyond_the_basic_plane_counts_as_one()
    {
        // Source: fontTools 4.38 gives the double-struck digit U+1D7D8 an advance of 1172.
        Assert.Equal(1172, FontFace.Regular.Advance("\U0001D7D8") * 2048, 6);
    }

    [Fact]
    public void Wrapped_text_keeps_every_letter_and_no_line_is_too_wide() =>
        Gen.Select(Gen.String[Gen.Char["ab c-d/e.fé½ \n"], 0, 120], Gen.Double[6, 80], Gen.Bool).Holds((text, width, bold) =>
        {
            var style = new TextStyle(3.5, bold);
            var lines = style.Wrap(text, width);
            Assert.All(lines, line => Assert.True(style.Width(line) <= width + 1e-6, line));
            Assert.Equal(text.Replace(" ", "", StringComparison.Ordinal).Replace("\n", "", StringComparison.Ordinal), string.Concat(lines).Replace(" ", "", StringComparison.Ordinal));
            Assert.DoesNotContain(lines, line => line.EndsWith(' '));
        });

    [Fact]
    public void A_word_longer_than_the_line_is_broken_after_a_sign_or_else_anywhere()
    {
        var style = TextStyle.Body;
        var lines = style.Wrap("Line 12-CWR-1042-A1A-H50 Unbreakablelongwordwithoutend", 25);
        Assert.Equal("Line|12-CWR-|1042-A1A-|H50", string.Join('|', lines.Take(4)));
        Assert.Equal("Unbreakablelongwordwithoutend", string.Concat(lines.Skip(4)));
    }

    [Fact]
    public void Text_that_is_too_wide_is_set_smaller_until_it_fits()
    {
        var style = TextStyle.Title.Fitting("A very long drawing number 4711-0815-0001", 60);
        Assert.InRange(style.Width("A very long drawing number 4711-0815-0001"), 55, 60);
        Assert.Equal(TextStyle.Title, TextStyle.Title.Fitting("A", 60));
    }
}
