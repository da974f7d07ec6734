using System.Globalization;
using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.App.Drawings;

/// <summary>The material list of a drawing as it is shown for writing, and the changes that more than one field is touched by.</summary>
public static class MaterialRows
{
    /// <summary>Columns that are always there; the others come when a row holds something in them.</summary>
    private static readonly string[] Always = ["item", "what", "size", "schedule", "class", "material", "quantity"];

    /// <summary>The columns to show, in the order of the file's own keys.</summary>
    public static IReadOnlyList<string> Columns(IEnumerable<IReadOnlyDictionary<string, string>> rows, bool all)
    {
        var used = rows.SelectMany(r => r.Keys).ToHashSet(StringComparer.Ordinal);
        return [.. Offers.Material(DrawingText.Of("materials: []", ""), 0).Select(o => o.Key).Where(k => all || used.Contains(k) || Always.Contains(k, StringComparer.Ordinal))];
    }

    /// <summary>Fills cells from a pasted block, to the right and downwards from one of them; rows that are not there yet are added.</summary>
    public static DrawingText Fill(DrawingText text, IReadOnlyList<IReadOnlyList<string>> cells, int row, string key, IReadOnlyList<string> columns)
    {
        var first = Math.Max(0, columns.ToList().IndexOf(key));
        for (var r = 0; r < cells.Count; r++)
        {
            var at = row + r;
            var pairs = cells[r].Select((value, c) => (Key: first + c < columns.Count ? columns[first + c] : "", Value: value)).Where(p => p.Key.Length > 0).ToList();
            if (at < text.Materials.Count)
            {
                foreach (var (column, value) in pairs)
                    text = text.Refusal is null ? text.Set(text.Materials[at].Path, column, value) : text;
            }
            else if (text.Refusal is null)
            {
                var fresh = pairs.Where(p => p.Value.Length > 0).ToDictionary(p => p.Key, p => p.Value, StringComparer.Ordinal);
                fresh.TryAdd("item", NextNumber(text));
                text = text.InsertMaterial(text.Materials.Count, fresh);
            }
        }

        return text;
    }

    /// <summary>A row for what the drawing needs and the list does not have.</summary>
    public static DrawingText Add(DrawingText text, MaterialRow needed, Fabrication fabrication)
    {
        var what = needed.What;
        var cells = new Dictionary<string, string>(StringComparer.Ordinal) { ["item"] = NextNumber(text) };
        if (what.Split(" x ") is [var stud, var length])
        {
            what = stud;
            cells["length"] = length;
        }

        cells["what"] = what;
        if (!needed.Size.IsNone)
            cells["size"] = needed.Size.ToString();
        if (!needed.Size2.IsNone)
            cells["size 2"] = needed.Size2.ToString();
        if (needed.UsedBy is [var first, ..] && ((Part?)fabrication.Route.PipeOf(first) ?? fabrication.Route.ComponentOf(first)) is { } part)
        {
            if (part.IsBySchedule)
                cells["schedule"] = part.Line.Schedule.ToString();
            if (part.RatingClass.Length > 0)
                cells["class"] = part.RatingClass;
            if (needed.IsLength)
                cells["material"] = part.Line.Material;
        }

        cells["quantity"] = needed.IsLength
            ? LengthText.PipeAtLeast(text.Units, needed.Needed)
            : needed.Needed.ToString("0.##", CultureInfo.InvariantCulture);
        return text.InsertMaterial(text.Materials.Count, cells);
    }

    /// <summary>Rows of a table, each with a number: those that have none get the next ones. Spreadsheets give whole numbers as 1.0 now and then.</summary>
    public static IReadOnlyList<IReadOnlyDictionary<string, string>> Numbered(IReadOnlyList<IReadOnlyDictionary<string, string>> rows)
    {
        static string Said(IReadOnlyDictionary<string, string> row) => row.GetValueOrDefault("item", "") is var said && said.EndsWith(".0", StringComparison.Ordinal) ? said[..^2] : said;
        var next = rows.Select(r => int.TryParse(Said(r), NumberStyles.None, CultureInfo.InvariantCulture, out var n) ? n : 0).DefaultIfEmpty().Max();
        return
        [
            .. rows.Select(row => new Dictionary<string, string>(row, StringComparer.Ordinal)
            {
                ["item"] = Said(row) is { Length: > 0 } said ? said : (++next).ToString(CultureInfo.InvariantCulture),
            }),
        ];
    }

    /// <summary>Why a table is none to be taken; null where it is.</summary>
    public static string? WhyNot(MaterialTable table) =>
        table.Rows.Count == 0 ? table.Notes is [var first, ..] ? $"{first.Message} {first.Remedy}" : "There are no rows under its headings."
        : !table.Rows.Any(r => r.ContainsKey("what")) ? "It has no column that says what each row is: give one the heading \"what\" or \"description\"."
        : null;

    public static string NextNumber(DrawingText text) =>
        (text.Materials.Select(m => int.TryParse(m["item"], NumberStyles.None, CultureInfo.InvariantCulture, out var n) ? n : 0).DefaultIfEmpty().Max() + 1).ToString(CultureInfo.InvariantCulture);

    /// <summary>Metres or pieces, as a person reads them.</summary>
    public static string Amount(double amount, bool isLength, Units units) =>
        isLength ? LengthText.Pipe(units, amount) : amount.ToString("0.##", CultureInfo.InvariantCulture);
}
