using System.Buffers;
using System.Globalization;

namespace Rootgap.Drawings;

/// <summary>Cells of a CSV file (RFC 4180). A text that a spreadsheet would take for a formula gets an apostrophe before it, and loses it again when it is read here.</summary>
public static class CsvText
{
    private static readonly SearchValues<char> Quoted = SearchValues.Create(",;\"\n\r\t");

    /// <summary>The cell as it is written; quoted where it must be.</summary>
    public static string Cell(string text)
    {
        var written = LooksLikeFormula(text) ? "'" + text : text;
        return written.AsSpan().ContainsAny(Quoted) ? "\"" + written.Replace("\"", "\"\"", StringComparison.Ordinal) + "\"" : written;
    }

    /// <summary>What a cell meant that <see cref="Cell"/> wrote; any other cell as it stands.</summary>
    public static string Meant(string cell) => cell is ['\'', ..] && LooksLikeFormula(cell[1..]) ? cell[1..] : cell;

    /// <summary>A leading sign makes a formula, unless it is a number's. With apostrophes before it, it is a text that was guarded already, and is guarded once more.</summary>
    private static bool LooksLikeFormula(string text)
    {
        var rest = text.AsSpan().TrimStart('\'');
        return rest is ['=' or '+' or '-' or '@' or '\t' or '\r', ..] && !(rest.Length == text.Length && double.TryParse(text, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent, CultureInfo.InvariantCulture, out _));
    }
}
