using System.Globalization;
using System.Text;
using Rootgap.Findings;

namespace Rootgap.Drawings;

/// <summary>A list kept as CSV or XLSX, written anew with some cells changed.</summary>
public static class SheetCopy
{
    /// <param name="name">The list's name; its ending tells which kind it is.</param>
    /// <param name="cells">Changes whose line and column are a cell's row and column, from 1, and whose new text is what stands there.</param>
    /// <exception cref="InvalidDataException">The bytes are no such list.</exception>
    public static byte[] With(string name, byte[] bytes, IEnumerable<Change> cells)
    {
        var changed = cells.ToDictionary(c => (c.At.Line, c.At.Column), c => c.NewText);
        var rows = SheetRows.Of(name, bytes).ToList();
        var headings = rows.SelectMany(r => r.Cells).GroupBy(c => c.Column).OrderBy(g => g.Key).Select(g => (Column: g.Key, g.First().Heading)).ToList();
        var table = rows.Select(r => headings.ToDictionary(h => h.Heading, h => Value(changed.GetValueOrDefault((r.Number, h.Column)) ?? r.Cells.FirstOrDefault(c => c.Column == h.Column).Text), StringComparer.Ordinal));
        using var to = new MemoryStream();
        if (name.EndsWith(".xlsx", StringComparison.OrdinalIgnoreCase))
        {
            Workbook.Write(to, ("materials", table));
            return to.ToArray();
        }

        var text = new StringBuilder().AppendJoin(',', headings.Select(h => CsvText.Cell(h.Heading))).Append('\n');
        foreach (var row in table)
            text.AppendJoin(',', row.Values.Select(v => CsvText.Cell(Convert.ToString(v, CultureInfo.InvariantCulture) ?? ""))).Append('\n');
        return Encoding.UTF8.GetBytes(text.ToString());
    }

    /// <summary>A number where it is written just so, else the text.</summary>
    private static object? Value(string? text) =>
        double.TryParse(text, NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var number) && number.ToString(CultureInfo.InvariantCulture) == text ? number : text;
}
