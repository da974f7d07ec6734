using System.Buffers;
using System.Globalization;
using System.Text;

namespace Rootgap.Sheets;

/// <summary>Text made ready for lines of a given width.</summary>
internal static class Wrapping
{
    private static readonly SearchValues<char> BreakAfter = SearchValues.Create("-/_.,;:)=+&");

    public static IReadOnlyList<string> Lines(string text, double width, TextStyle style)
    {
        var lines = new List<string>(2);
        foreach (var range in text.AsSpan().Split('\n'))
            Paragraph(text.AsSpan()[range].TrimEnd('\r'), width, style, lines);
        return lines;
    }

    private static void Paragraph(ReadOnlySpan<char> text, double width, TextStyle style, List<string> lines)
    {
        // A line of exactly the width fits, although its sum may end a hair higher.
        width += 1e-9;
        text = text.TrimEnd();
        if (style.Width(text) <= width)
        {
            lines.Add(text.ToString());
            return;
        }
        var start = 0; // of the line being filled
        var end = 0;   // of what is known to fit on it
        var at = 0;    // of the word being tried
        while (at < text.Length)
        {
            var wordEnd = WordEnd(text, at);
            if (style.Width(text[start..wordEnd]) <= width)
            {
                end = wordEnd;
                at = Math.Min(text.Length, wordEnd + 1);
            }
            else if (end > start && text[start..end].Trim().Length > 0)
            {
                lines.Add(text[start..end].TrimEnd().ToString());
                start = end = at;
            }
            else
            {
                // Too long by itself (with the spaces before it, if there are any).
                while (start < wordEnd && text[start] == ' ')
                    start++;
                while (style.Width(text[start..wordEnd]) > width)
                {
                    var length = Piece(text[start..wordEnd], width, style);
                    if (start + length >= wordEnd)
                        break;
                    lines.Add(text.Slice(start, length).TrimEnd().ToString());
                    start += length;
                }
                end = wordEnd;
                at = Math.Min(text.Length, wordEnd + 1);
            }
        }
        if (end > start)
            lines.Add(text[start..end].ToString());
    }

    /// <summary>
    /// Where the word ends that begins at a place of a text. The blank between whole inches and their fraction is none between words: 3 1/2" torn after the 3 is read as 3.
    /// </summary>
    public static int WordEnd(ReadOnlySpan<char> text, int at)
    {
        for (; at < text.Length; at++)
        {
            if (text[at] == ' ' && !IsBeforeFraction(text, at))
                break;
        }

        return at;
    }

    private static bool IsBeforeFraction(ReadOnlySpan<char> text, int blank)
    {
        if (blank == 0 || !char.IsAsciiDigit(text[blank - 1]))
            return false;
        var above = blank + 1;
        while (above < text.Length && char.IsAsciiDigit(text[above]))
            above++;
        return above > blank + 1 && above + 1 < text.Length && text[above] == '/' && char.IsAsciiDigit(text[above + 1]);
    }

    // How many characters of a word go on a line: at least one sign, then as many as fit, back to the blank of a figure or else to the last sign one may break after.
    private static int Piece(ReadOnlySpan<char> word, double width, TextStyle style)
    {
        var fits = StringInfo.GetNextTextElementLength(word);
        while (fits < word.Length)
        {
            var next = fits + StringInfo.GetNextTextElementLength(word[fits..]);
            if (style.Width(word[..next]) > width)
                break;
            fits = next;
        }
        var blank = word[..fits].LastIndexOf(' ');
        var sign = blank > 0 ? blank : word[..fits].LastIndexOfAny(BreakAfter);
        return sign > 0 ? sign + 1 : fits;
    }

    /// <summary>The text with nothing in it that XML forbids or that breaks a line.</summary>
    public static string Printable(string text)
    {
        var plain = true;
        foreach (var c in text)
            plain &= c is >= ' ' and < '\u007f' or >= '\u00a0' and < '\u2028';
        if (plain)
            return text;
        var result = new StringBuilder(text.Length);
        foreach (var rune in text.EnumerateRunes())
        {
            result.Append(rune.Value switch
            {
                '\t' or '\n' or '\r' or 0x2028 or 0x2029 => " ",
                < ' ' or (>= 0x7f and < 0xa0) or 0xfffe or 0xffff => "\ufffd",
                _ => rune.ToString(),
            });
        }
        return result.ToString();
    }
}
