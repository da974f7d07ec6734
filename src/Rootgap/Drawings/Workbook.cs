using System.Globalization;
using System.IO.Compression;
using System.Text;

namespace Rootgap.Drawings;

/// <summary>Writes tables as an XLSX workbook (ECMA-376), one sheet each, headings in bold. Rows are taken one by one; the same rows give the same bytes.</summary>
internal static class Workbook
{
    private const string Main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
    private const string Links = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
    private const string PackageLinks = "http://schemas.openxmlformats.org/package/2006/relationships";
    private const string Kinds = "application/vnd.openxmlformats-officedocument.spreadsheetml";

    // Nothing of the clock in it: the earliest time that a ZIP archive can say.
    private static readonly DateTimeOffset Earliest = new(1980, 1, 1, 0, 0, 0, TimeSpan.Zero);

    /// <param name="sheets">Name of each sheet, at most 31 letters, and its rows: heading to a number, a text or nothing. All rows of a sheet have the same headings.</param>
    public static void Write(Stream to, params IReadOnlyList<(string Name, IEnumerable<Dictionary<string, object?>> Rows)> sheets)
    {
        using var book = new ZipArchive(to, ZipArchiveMode.Create, leaveOpen: true);
        var each = sheets.Index().ToList();
        Part(book, "[Content_Types].xml", w => w.Write(
            "<Types xmlns=\"http://schemas.openxmlformats.org/package/2006/content-types\"><Default Extension=\"rels\" ContentType=\"application/vnd.openxmlformats-package.relationships+xml\"/>"
            + $"<Override PartName=\"/xl/workbook.xml\" ContentType=\"{Kinds}.sheet.main+xml\"/><Override PartName=\"/xl/styles.xml\" ContentType=\"{Kinds}.styles+xml\"/>"
            + string.Concat(each.Select(s => $"<Override PartName=\"/xl/worksheets/{FileOf(s.Index)}\" ContentType=\"{Kinds}.worksheet+xml\"/>")) + "</Types>"));
        Part(book, "_rels/.rels", w => w.Write($"<Relationships xmlns=\"{PackageLinks}\"><Relationship Id=\"r1\" Type=\"{Links}/officeDocument\" Target=\"xl/workbook.xml\"/></Relationships>"));
        Part(book, "xl/workbook.xml", w => w.Write(
            $"<workbook xmlns=\"{Main}\" xmlns:r=\"{Links}\"><sheets>"
            + string.Concat(each.Select(s => string.Create(CultureInfo.InvariantCulture, $"<sheet name=\"{Escaped(s.Item.Name)}\" sheetId=\"{s.Index + 1}\" r:id=\"s{s.Index + 1}\"/>"))) + "</sheets></workbook>"));
        Part(book, "xl/_rels/workbook.xml.rels", w => w.Write(
            $"<Relationships xmlns=\"{PackageLinks}\"><Relationship Id=\"styles\" Type=\"{Links}/styles\" Target=\"styles.xml\"/>"
            + string.Concat(each.Select(s => string.Create(CultureInfo.InvariantCulture, $"<Relationship Id=\"s{s.Index + 1}\" Type=\"{Links}/worksheet\" Target=\"worksheets/{FileOf(s.Index)}\"/>"))) + "</Relationships>"));
        Part(book, "xl/styles.xml", w => w.Write(
            $"<styleSheet xmlns=\"{Main}\"><fonts count=\"2\"><font><sz val=\"11\"/><name val=\"Calibri\"/></font><font><b/><sz val=\"11\"/><name val=\"Calibri\"/></font></fonts>"
            + "<fills count=\"2\"><fill><patternFill patternType=\"none\"/></fill><fill><patternFill patternType=\"gray125\"/></fill></fills><borders count=\"1\"><border/></borders>"
            + "<cellStyleXfs count=\"1\"><xf/></cellStyleXfs><cellXfs count=\"2\"><xf xfId=\"0\"/><xf xfId=\"0\" fontId=\"1\" applyFont=\"1\"/></cellXfs></styleSheet>"));
        foreach (var (i, (_, rows)) in each)
            Part(book, "xl/worksheets/" + FileOf(i), w => Sheet(w, rows));
    }

    private static string FileOf(int sheet) => string.Create(CultureInfo.InvariantCulture, $"sheet{sheet + 1}.xml");

    private static void Part(ZipArchive book, string name, Action<TextWriter> write)
    {
        var entry = book.CreateEntry(name);
        entry.LastWriteTime = Earliest;
        using var writer = new StreamWriter(entry.Open(), new UTF8Encoding(encoderShouldEmitUTF8Identifier: false));
        writer.Write("<?xml version=\"1.0\" encoding=\"UTF-8\" standalone=\"yes\"?>\n");
        write(writer);
    }

    private static void Sheet(TextWriter to, IEnumerable<Dictionary<string, object?>> rows)
    {
        to.Write($"<worksheet xmlns=\"{Main}\"><sheetData>");
        var number = 0;
        foreach (var row in rows)
        {
            if (number == 0)
                Row(to, ++number, row.Keys, " s=\"1\"");
            Row(to, ++number, row.Values, "");
        }

        to.Write("</sheetData></worksheet>");
    }

    private static void Row(TextWriter to, int number, IEnumerable<object?> cells, string style)
    {
        to.Write(string.Create(CultureInfo.InvariantCulture, $"<row r=\"{number}\">"));
        foreach (var (column, cell) in cells.Index())
        {
            var place = string.Create(CultureInfo.InvariantCulture, $"{Letters(column)}{number}");
            switch (cell)
            {
                case null:
                    break;
                case double or int:
                    to.Write(string.Create(CultureInfo.InvariantCulture, $"<c r=\"{place}\"{style}><v>{cell}</v></c>"));
                    break;
                default:
                    to.Write($"<c r=\"{place}\"{style} t=\"inlineStr\"><is><t xml:space=\"preserve\">{Escaped(Convert.ToString(cell, CultureInfo.InvariantCulture)!)}</t></is></c>");
                    break;
            }
        }

        to.Write("</row>");
    }

    private static string Letters(int column) => column < 26 ? ((char)('A' + column)).ToString() : Letters((column / 26) - 1) + (char)('A' + (column % 26));

    // Signs that XML cannot hold (section 2.2 of its specification) become blanks.
    private static string Escaped(string text)
    {
        var escaped = new StringBuilder(text.Length);
        foreach (var rune in text.EnumerateRunes())
        {
            switch (rune.Value)
            {
                case '<': escaped.Append("&lt;"); break;
                case '>': escaped.Append("&gt;"); break;
                case '&': escaped.Append("&amp;"); break;
                case '"': escaped.Append("&quot;"); break;
                case < 0x20 and not ('\t' or '\n' or '\r'):
                case 0xfffe or 0xffff: escaped.Append(' '); break;
                default: escaped.Append(rune.ToString()); break;
            }
        }

        return escaped.ToString();
    }
}
