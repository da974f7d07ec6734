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
            var space = text[at..].IndexOf(' ');
            var wordEnd = space < 0 ? text.Length : at + space;
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
                    lines.Add(text.Slice(start, length).ToString());
                    start += length;
                }
                end = wordEnd;
                at = Math.Min(text.Length, wordEnd + 1);
            }
        }
        if (end > start)
            lines.Add(text[start..end].ToString());
    }

    // How many characters of a word go on a line: at least one sign, then as many as fit, back to the last sign one may break after.
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
        var sign = word[..fits].LastIndexOfAny(BreakAfter);
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
