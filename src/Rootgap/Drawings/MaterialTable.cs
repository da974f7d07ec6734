using System.Collections.Frozen;
using System.Text;
using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.Drawings;

/// <summary>What was not understood of a table.</summary>
/// <param name="Row">Index of the row in <see cref="MaterialTable.Rows"/>; -1 for the headings.</param>
/// <param name="Key">The column; null where the whole row is meant.</param>
public sealed record TableNote(int Row, string? Key, string Message, string Remedy);

/// <summary>
/// A material list as it comes from a spreadsheet, pasted or as a file. Its first row holds the headings: the keys of the drawing file's material rows,
/// or what other people call them (<c>Qty</c>, <c>Description</c>, <c>Sch.</c>).
/// </summary>
/// <param name="Rows">The cells of each row by key; also of rows that were not wholly understood.</param>
/// <param name="Notes">What was not understood, row by row.</param>
public sealed record MaterialTable(IReadOnlyList<IReadOnlyDictionary<string, string>> Rows, IReadOnlyList<TableNote> Notes)
{
    /// <summary>Headings in common use (common practice), by their letters and figures alone.</summary>
    private static readonly FrozenDictionary<string, string> Headings = new (string Key, string[] Others)[]
    {
        ("item", ["itemno", "itemnumber", "no", "number", "pos", "position", "mark", "markno"]),
        ("what", ["description", "descr", "desc", "component", "part", "type"]),
        ("size", ["nps", "dn", "nominalsize", "size1", "dia", "diameter", "nb"]),
        ("size 2", ["secondsize", "smallend", "branchsize", "dia2"]),
        ("schedule", ["sch", "sched"]),
        ("class", ["rating", "pressureclass"]),
        ("bore", ["boredto", "borefor"]),
        ("material", ["mat", "matl", "grade", "spec", "specification", "materialspec"]),
        ("length", ["len", "boltlength"]),
        ("thickness", ["thk", "thick"]),
        ("quantity", ["qty", "quant", "amount", "count", "pcs"]),
        ("unit", ["units", "uom"]),
        ("heat", ["heatno", "heatnumber"]),
        ("note", ["notes", "remark", "remarks", "comment", "comments"]),
    }.SelectMany(h => h.Others.Append(Plain(h.Key)).Select(other => KeyValuePair.Create(other, h.Key))).ToFrozenDictionary(StringComparer.Ordinal);

    /// <summary>Whether the first row names columns of a material list.</summary>
    public static bool HasHeadings(IReadOnlyList<IReadOnlyList<string>> cells) =>
        cells is [var top, ..] && top.Select(KeyOf).Where(DrawingShape.Item.Has).ToHashSet(StringComparer.Ordinal) is { Count: > 1 } keys && (keys.Contains("what") || keys.Contains("item"));

    /// <summary>The cells of a pasted block, row by row, as they stand there; blank rows are left out.</summary>
    public static IReadOnlyList<IReadOnlyList<string>> CellsOf(string text) => Lines(text);

    /// <summary>A pasted table: cells parted by tabs (or by semicolons or commas where there is no tab), quoted where they hold a tab or a line break.</summary>
    /// <param name="units">Unit of bare lengths.</param>
    public static MaterialTable Pasted(string text, Units units)
    {
        var lines = Lines(text);
        if (lines.Count == 0)
            return new([], [new(-1, null, "Nothing was pasted.", "Copy the rows with their headings from the spreadsheet.")]);
        var headings = lines[0].ConvertAll(KeyOf);
        var rows = new List<YamlNode>();
        for (var i = 1; i < lines.Count; i++)
        {
            var pairs = new List<(YamlText, YamlNode)>();
            for (var c = 0; c < Math.Min(headings.Count, lines[i].Count); c++)
            {
                if (headings[c].Length > 0 && lines[i][c].Length > 0 && !pairs.Exists(p => p.Item1.Value == headings[c]))
                    pairs.Add((new(new("", 1, c + 1, c + 2), headings[c], Quoted: false), new YamlText(new("", i + 1, c + 1, c + 2), lines[i][c], Quoted: false)));
            }

            rows.Add(new YamlMap(new("", i + 1, 1, 2), pairs));
        }

        return Of(rows, headings, units, new ReadingErrors());
    }

    /// <summary>A CSV or XLSX file, or a list written as YAML.</summary>
    /// <param name="name">Its name; the ending tells which of them it is.</param>
    /// <param name="units">Unit of the drawing's bare lengths; where a YAML list has another one, its lengths are given with it.</param>
    public static MaterialTable OfFile(string name, byte[] bytes, Units units)
    {
        if (name.EndsWith(".yaml", StringComparison.OrdinalIgnoreCase) || name.EndsWith(".yml", StringComparison.OrdinalIgnoreCase))
            return OfYaml(name, bytes, units);
        if (!name.EndsWith(".csv", StringComparison.OrdinalIgnoreCase) && !name.EndsWith(".xlsx", StringComparison.OrdinalIgnoreCase))
            return new([], [new(-1, null, $"\"{name}\" is no kind of table that can be read.", "It is a .csv, .xlsx or .yaml file.")]);
        var errors = new ReadingErrors();
        var rows = MaterialListReader.Rows(name, bytes, errors).ConvertAll(Renamed);
        return Of(rows, rows.OfType<YamlMap>().SelectMany(r => r.Pairs).Select(p => p.Key.Value).Distinct(StringComparer.Ordinal), units, errors);
    }

    private static MaterialTable OfYaml(string name, byte[] bytes, Units units)
    {
        var errors = new ReadingErrors();
        var text = FileText.Read(bytes, name, "materials", errors);
        var root = errors.Count > 0 ? null : YamlTree.Read(text, name, (where, message, remedy) => errors.Add("not-yaml", where, "materials", message, remedy));
        var list = root as YamlList ?? (root as YamlMap)?["materials"] as YamlList;
        if (list is null && errors.Count == 0)
            errors.Add("wrong-type", new(name, 1, 1, 2), "materials", "The file holds no material list.", "It holds rows such as - {item: 1, what: pipe, size: 6}.");
        var own = (root as YamlMap)?["units"] is YamlText { Value: var said } ? said.Trim() == "in" ? Units.Inches : Units.Millimetres : units;
        var rows = (list?.Items ?? []).OfType<YamlMap>().Select(r => (YamlNode)(r with { Pairs = [.. r.Pairs.Where(p => p.Value is YamlText { IsEmpty: false }).Select(p => (p.Key, Said(p.Key.Value, p.Value)))] })).ToList();
        return Of(rows, rows.OfType<YamlMap>().SelectMany(r => r.Pairs).Select(p => p.Key.Value).Distinct(StringComparer.Ordinal), units, errors);

        YamlNode Said(string key, YamlNode value) => own != units && (key is "length" or "thickness") && value is YamlText text && LengthText.TryParseNumber(text.Value, out _)
            ? text with { Value = text.Value + (own == Units.Inches ? " in" : " mm") }
            : value;
    }

    private static MaterialTable Of(List<YamlNode> rows, IEnumerable<string> headings, Units units, ReadingErrors errors)
    {
        var notes = errors.InOrder.Select(e => new TableNote(-1, null, e.Message, e.Remedy)).ToList();
        var item = DrawingShape.Item;
        foreach (var heading in headings.Where(h => h.Length > 0 && !item.Has(h)))
        {
            var near = Nearest.To(heading, item.Names);
            notes.Add(new(-1, heading, $"The column \"{heading}\" is left out: a material list has none of that name.", near is null ? $"The columns are: {string.Join(", ", item.Names)}." : $"Did you mean \"{near}\"?"));
        }

        var known = rows.OfType<YamlMap>().Select(r => r with { Pairs = [.. r.Pairs.Where(p => item.Has(p.Key.Value))] }).Where(r => r.Pairs.Count > 0).ToList();
        var wrong = new ReadingErrors();
        MaterialListReader.Items([.. known], "materials", units, wrong, default);
        foreach (var error in wrong.InOrder)
        {
            var row = known.FindIndex(r => r.Where.Line == error.Where.Line);
            var key = row < 0 ? null : known[row].Pairs.Where(p => p.Value.Where == error.Where && error.Rule != "missing-key").Select(p => p.Key.Value).FirstOrDefault();
            notes.Add(new(row, key, error.Message, error.Remedy));
        }

        return new([.. known.Select(r => r.Pairs.ToDictionary(p => p.Key.Value, p => ((YamlText)p.Value).Value, StringComparer.Ordinal))], notes);
    }

    /// <summary>The key that a heading means; the heading itself, in small letters, where it is none that is known.</summary>
    private static string KeyOf(string heading) => Headings.GetValueOrDefault(Plain(heading)) ?? heading.ToLowerInvariant();

    private static string Plain(string heading) => string.Concat(heading.Where(char.IsAsciiLetterOrDigit)).ToLowerInvariant();

    private static YamlNode Renamed(YamlNode row) => row is YamlMap map
        ? map with { Pairs = [.. map.Pairs.Select(p => (p.Key with { Value = KeyOf(p.Key.Value) }, p.Value)).DistinctBy(p => p.Item1.Value, StringComparer.Ordinal)] }
        : row;

    private static List<List<string>> Lines(string text)
    {
        var first = text.AsSpan().TrimStart("\r\n");
        var end = first.IndexOfAny('\r', '\n');
        if (end >= 0)
            first = first[..end];
        var separator = first.Contains('\t') ? '\t' : first.Contains(';') ? ';' : ',';
        return [.. Cells(text, separator).Where(l => l.Exists(c => c.Length > 0))];
    }

    private static IEnumerable<List<string>> Cells(string text, char separator)
    {
        var line = new List<string>();
        for (var at = 0; at <= text.Length;)
        {
            var cell = Cell(text, separator, ref at);
            line.Add(cell);
            if (at < text.Length && text[at] == separator)
            {
                at++;
                continue;
            }

            yield return line;
            line = [];
            if (at < text.Length && text[at] == '\r' && at + 1 < text.Length && text[at + 1] == '\n')
                at++;
            at++;
        }
    }

    private static string Cell(string text, char separator, ref int at)
    {
        if (at < text.Length && text[at] == '"')
        {
            var quoted = new StringBuilder();
            for (var i = at + 1; i < text.Length; i++)
            {
                if (text[i] != '"')
                {
                    quoted.Append(text[i]);
                }
                else if (i + 1 < text.Length && text[i + 1] == '"')
                {
                    quoted.Append('"');
                    i++;
                }
                else if (i + 1 == text.Length || text[i + 1] == separator || text[i + 1] is '\r' or '\n')
                {
                    at = i + 1;
                    return OneLine(quoted.ToString());
                }
                else
                {
                    break;
                }
            }
        }

        var end = text.AsSpan(at).IndexOfAny(separator, '\r', '\n');
        end = end < 0 ? text.Length : at + end;
        var cell = text[at..end];
        at = end;
        return OneLine(cell);
    }

    /// <summary>A cell's words with single spaces between them.</summary>
    private static string OneLine(string cell) => string.Join(' ', cell.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
}
