using System.Globalization;
using System.IO.Compression;
using System.Text;
using System.Xml;

namespace Rootgap.Drawings;

/// <summary>A row of a list kept as a sheet: its number as a spreadsheet shows it, and its cells under their headings. Empty cells are left out.</summary>
/// <param name="Cells">Heading as written, column from 1, and what stands there.</param>
internal sealed record SheetRow(int Number, IReadOnlyList<(string Heading, int Column, string Text)> Cells);

/// <summary>Reads lists that shops keep as sheets: CSV (RFC 4180; comma, semicolon or tab) and the first sheet of an XLSX workbook (ECMA-376). The first row has the headings.</summary>
/// <remarks>Read here and not by a library: lists are plain, and the app carries whatever is used over the wire.</remarks>
internal static class SheetRows
{
    /// <summary>Most text in a part of a workbook, characters: more is no list but an attack.</summary>
    private const long MostText = 64 << 20;

    /// <exception cref="InvalidDataException">The bytes are no workbook.</exception>
    /// <exception cref="XmlException">A part of the workbook is broken.</exception>
    public static IEnumerable<SheetRow> Of(string name, byte[] bytes)
    {
        List<string>? headings = null;
        var isCsv = name.EndsWith(".csv", StringComparison.OrdinalIgnoreCase);
        foreach (var (number, cells) in isCsv ? Csv(Utf8(bytes)) : Xlsx(bytes))
        {
            if (headings is null)
            {
                if (cells.TrueForAll(string.IsNullOrWhiteSpace))
                    continue;
                headings = [];
                foreach (var heading in cells)
                {
                    // A second column of the same name is nobody's: it is refused by its reader, not mixed with the first.
                    var free = heading.Trim();
                    for (var i = 2; free.Length > 0 && headings.Contains(free, StringComparer.OrdinalIgnoreCase); i++)
                        free = string.Create(CultureInfo.InvariantCulture, $"{heading.Trim()} ({i})");
                    headings.Add(free);
                }

                continue;
            }

            yield return new(number, [.. cells.Take(headings.Count).Select((text, i) => (headings[i], i + 1, isCsv ? CsvText.Meant(text.Trim()) : text.Trim())).Where(c => c.Item1.Length > 0 && c.Item3.Length > 0)]);
        }
    }

    private static string Utf8(byte[] bytes) => FileText.Of(bytes) is var (text, bad, kind) && bad.Line == 0
        ? text
        : throw new InvalidDataException(string.Create(CultureInfo.InvariantCulture, $"it is {kind}, from line {bad.Line}, column {bad.Column} on."));

    private static IEnumerable<(int Number, List<string> Cells)> Csv(string text)
    {
        var first = text.AsSpan(0, text.AsSpan().IndexOf('\n') is >= 0 and var end ? end : text.Length);
        var separator = first.Count(';') > first.Count(',') ? ';' : first.Contains('\t') ? '\t' : ',';
        var cells = new List<string>();
        var cell = new StringBuilder();
        var (number, isQuoted) = (1, false);
        for (var i = 0; i < text.Length; i++)
        {
            var c = text[i];
            if (isQuoted)
            {
                if (c != '"')
                    cell.Append(c);
                else if (i + 1 < text.Length && text[i + 1] == '"')
                    cell.Append(text[i++]);
                else
                    isQuoted = false;
            }
            else if (c == '"' && cell.Length == 0)
            {
                isQuoted = true;
            }
            else if (c == separator || c == '\n')
            {
                cells.Add(cell.ToString());
                cell.Clear();
                if (c == separator)
                    continue;
                yield return (number++, cells);
                cells = [];
            }
            else if (c != '\r' || (i + 1 < text.Length && text[i + 1] != '\n'))
            {
                cell.Append(c);
            }
        }

        if (cells.Count == 0 && cell.Length == 0)
            yield break;
        cells.Add(cell.ToString());
        yield return (number, cells);
    }

    private static IEnumerable<(int Number, List<string> Cells)> Xlsx(byte[] bytes)
    {
        using var book = new ZipArchive(new MemoryStream(bytes), ZipArchiveMode.Read);
        var shared = Shared(book);
        using var sheet = Open(book, FirstSheet(book)) ?? throw new InvalidDataException("The workbook has no sheet.");
        var (number, cells) = (0, new List<string>());
        while (sheet.Read())
        {
            if (sheet.NodeType == XmlNodeType.EndElement && sheet.LocalName == "row")
            {
                yield return (number, cells);
                cells = [];
            }
            else if (sheet.NodeType == XmlNodeType.Element && sheet.LocalName == "row")
            {
                number = int.TryParse(sheet.GetAttribute("r"), NumberStyles.None, CultureInfo.InvariantCulture, out var said) ? said : number + 1;
            }
            else if (sheet.NodeType == XmlNodeType.Element && sheet.LocalName == "c")
            {
                var column = Column(sheet.GetAttribute("r")) ?? cells.Count;
                var kind = sheet.GetAttribute("t");
                var text = sheet.IsEmptyElement ? "" : Cell(sheet, kind, shared);
                while (cells.Count < column)
                    cells.Add("");
                if (cells.Count == column)
                    cells.Add(text);
            }
        }
    }

    // What stands in a cell: a number as its value is written best, words as they are.
    private static string Cell(XmlReader sheet, string? kind, List<string> shared)
    {
        var value = new StringBuilder();
        var depth = sheet.Depth;
        var isText = false;
        while (sheet.Read() && sheet.Depth > depth)
        {
            if (sheet.NodeType == XmlNodeType.Element)
                isText = sheet.LocalName is "v" or "t";
            else if (sheet.NodeType is XmlNodeType.Text or XmlNodeType.SignificantWhitespace or XmlNodeType.Whitespace or XmlNodeType.CDATA && isText)
                value.Append(sheet.Value);
            else if (sheet.NodeType == XmlNodeType.EndElement)
                isText = false;
        }

        var text = value.ToString();
        return kind switch
        {
            "s" => int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var at) && at < shared.Count ? shared[at] : "",
            "b" => text == "1" ? "True" : "False",
            "str" or "inlineStr" or "e" or "d" => text,
            _ => double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) ? number.ToString(CultureInfo.InvariantCulture) : text,
        };
    }

    // Column from 0 of a place such as AB12.
    private static int? Column(string? place)
    {
        var column = 0;
        foreach (var c in place ?? "")
        {
            if (!char.IsAsciiLetterUpper(c))
                break;
            column = (column * 26) + (c - 'A' + 1);
            if (column > 16_384)
                throw new InvalidDataException($"The workbook has a cell at {place}.");
        }

        return column > 0 ? column - 1 : null;
    }

    private static List<string> Shared(ZipArchive book)
    {
        var all = new List<string>();
        using var reader = Open(book, "xl/sharedStrings.xml");
        if (reader is null)
            return all;
        var text = new StringBuilder();
        var (isText, isReading) = (false, false);
        while (reader.Read())
        {
            switch (reader.NodeType, reader.LocalName)
            {
                case (XmlNodeType.Element, "si"):
                    text.Clear();
                    if (reader.IsEmptyElement)
                        all.Add("");
                    break;
                case (XmlNodeType.EndElement, "si"):
                    all.Add(text.ToString());
                    break;
                case (XmlNodeType.Element, "rPh"): // how it is spoken, in Japanese lists
                    isReading = !reader.IsEmptyElement;
                    break;
                case (XmlNodeType.EndElement, "rPh"):
                    isReading = false;
                    break;
                case (XmlNodeType.Element, "t"):
                    isText = !reader.IsEmptyElement;
                    break;
                case (XmlNodeType.EndElement, "t"):
                    isText = false;
                    break;
                case (XmlNodeType.Text or XmlNodeType.SignificantWhitespace or XmlNodeType.Whitespace or XmlNodeType.CDATA, _) when isText && !isReading:
                    text.Append(reader.Value);
                    break;
            }
        }

        return all;
    }

    // The part that holds the sheet shown first.
    private static string FirstSheet(ZipArchive book)
    {
        const string Usual = "xl/worksheets/sheet1.xml";
        string? link = null;
        using (var workbook = Open(book, "xl/workbook.xml"))
        {
            while (link is null && workbook?.Read() == true)
            {
                if (workbook is { NodeType: XmlNodeType.Element, LocalName: "sheet" })
                    link = Attribute(workbook, "id");
            }
        }

        using var links = Open(book, "xl/_rels/workbook.xml.rels");
        while (link is not null && links?.Read() == true)
        {
            if (links is { NodeType: XmlNodeType.Element, LocalName: "Relationship" } && links.GetAttribute("Id") == link && links.GetAttribute("Target") is { } target)
                return target.StartsWith('/') ? target[1..] : "xl/" + target;
        }

        return Usual;
    }

    // By its local name: the namespaces of the strict and of the transitional form differ. The link is r:id beside a plain sheetId.
    private static string? Attribute(XmlReader reader, string name)
    {
        string? value = null;
        for (var more = reader.MoveToFirstAttribute(); more; more = reader.MoveToNextAttribute())
        {
            if (reader.LocalName == name)
                value = reader.Value;
        }

        reader.MoveToElement();
        return value;
    }

    private static XmlReader? Open(ZipArchive book, string part) => book.GetEntry(part) is { } entry
        ? XmlReader.Create(entry.Open(), new XmlReaderSettings { CloseInput = true, DtdProcessing = DtdProcessing.Prohibit, XmlResolver = null, MaxCharactersInDocument = MostText })
        : null;
}
