using System.Buffers;
using System.Text;
using System.Text.Json;
using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Sheets;

namespace Rootgap.Packets;

/// <summary>One drawing worked through: its part of packet.json, of the cut list and of the sheets.</summary>
/// <param name="Json">UTF-8, one object.</param>
/// <param name="Sheets">Empty where no sheets are wanted.</param>
/// <param name="Papers">Rows of each of <see cref="PaperLists.All"/>.</param>
/// <param name="Faults">Sheets that the program failed to draw: a page that says so stands among the others.</param>
public sealed record PacketPart(Packet Packet, byte[] Json, IReadOnlyList<CutRow> Cuts, IReadOnlyList<IReadOnlyList<object?[]>> Papers, IReadOnlyList<Scene> Sheets, IReadOnlyList<Finding> Faults)
{
    /// <param name="paper">Paper of the sheets; null for no sheets.</param>
    public static PacketPart Of(Packet packet, Paper? paper)
    {
        var buffer = new ArrayBufferWriter<byte>(32 << 10);
        using (var json = new Utf8JsonWriter(buffer, PacketJson.Writing))
            PacketJson.Write(json, packet);
        var pages = paper is null ? [] : ShopPages.Of(packet.ToJob(paper));
        return new(packet, buffer.WrittenSpan.ToArray(), [.. CutRow.Of(packet)], [.. PaperLists.All.Select(l => (IReadOnlyList<object?[]>)[.. l.Rows(packet)])], [.. new Booklet(packet.Drawing.Number, pages).Section()], [.. MissingSheet.Told(pages)]);
    }

    /// <summary>As <see cref="Of(Packet, Paper?)"/>; where the program fails over this drawing, null and what is to be told of it.</summary>
    public static PacketPart? TryOf(Drawing drawing, Paper? paper, out Finding? fault)
    {
        if (Packet.TryOf(drawing, out fault) is not { } packet)
            return null;
        try
        {
            return Of(packet, paper);
        }
        catch (Exception e) when (ProgramFault.IsOne(e))
        {
            fault = ProgramFault.Of("The packet of this drawing could not be written", ProgramFault.Words(e), "Nothing is made from it; the other drawings are not touched by this.", drawing.Source.Path, drawing.Source["drawing"]);
            return null;
        }
    }
}

/// <summary>
/// The files of a packet while they are written, drawing by drawing: nothing is held but the rows of the cut list, which a workbook needs at its end.
/// Where they go is the caller's business.
/// </summary>
/// <param name="version">The program's version, for packet.json.</param>
/// <param name="withSheets">Whether there is a PDF of the sheets.</param>
/// <param name="open">Opens a file of that name for writing; called when the first drawing comes, so that a packet without drawings leaves no files.</param>
public sealed class PacketFiles(string version, bool withSheets, Func<string, Stream> open) : IDisposable
{
    public const string JsonName = "packet.json";
    public const string CsvName = "cut-list.csv";
    public const string PdfName = "shop.pdf";
    public const string XlsxName = "cut-list.xlsx";
    public const string PapersName = "papers.xlsx";

    private readonly List<CutRow> rows = [];
    private readonly List<(PaperList List, StreamWriter Csv, List<object?[]> Rows)> papers = [];
    private Stream? jsonFile;
    private Utf8JsonWriter? json;
    private StreamWriter? csv;
    private Stream? pdfFile;
    private PdfWriter? pdf;

    /// <summary>What was written, in order; filled by <see cref="Close"/>.</summary>
    public List<string> Names { get; } = [];

    /// <summary>Adds a drawing. What is to be told of it: sheets that the program failed to draw or to write.</summary>
    /// <param name="page">Told before each page is written: which of how many, from 1.</param>
    public IReadOnlyList<Finding> Add(PacketPart part, Action<int, int>? page = null)
    {
        Open();
        var faults = part.Faults.ToList();
        if (pdf is not null)
        {
            for (var i = 0; i < part.Sheets.Count; i++)
            {
                page?.Invoke(i + 1, part.Sheets.Count);
                try
                {
                    pdf.Add(part.Sheets[i]);
                }
                catch (Exception e) when (ProgramFault.IsOne(e))
                {
                    var (drawing, sheet) = (part.Packet.Drawing, part.Sheets[i]);
                    var instead = MissingSheet.Of(drawing.Number, drawing.Revision, sheet.Title, sheet.Paper, ProgramFault.Words(e));
                    faults.AddRange(MissingSheet.Told([instead]));
                    pdf.Add(instead.Numbered(i + 1, part.Sheets.Count));
                }
            }
        }

        json!.WriteRawValue(part.Json, skipInputValidation: true);
        if (json.BytesPending > 1 << 20)
            json.Flush();
        foreach (var row in part.Cuts)
            csv!.WriteLine(CutListFiles.Csv(row));
        rows.AddRange(part.Cuts.Take(CutListFiles.MostXlsxRows - rows.Count));
        foreach (var (paper, added) in papers.Zip(part.Papers))
        {
            foreach (var row in added)
                paper.Csv.WriteLine(PaperList.Csv(row));
            paper.Rows.AddRange(added.Take(CutListFiles.MostXlsxRows - paper.Rows.Count));
        }

        return faults;
    }

    /// <summary>Finishes the files. Where no drawing came, there is nothing to finish and nothing was written.</summary>
    public void Close()
    {
        if (json is null)
            return;
        PacketJson.End(json);
        json.Dispose();
        jsonFile!.Dispose();
        csv!.Dispose();
        pdf?.Dispose();
        pdfFile?.Dispose();
        using (var xlsx = open(XlsxName))
            CutListFiles.Xlsx(xlsx, rows);
        foreach (var (_, csv, _) in papers)
            csv.Dispose();
        using (var xlsx = open(PapersName))
            Workbook.Write(xlsx, [.. papers.Select(p => (p.List.Name, p.List.Sheet(p.Rows)))]);
        Names.AddRange([.. withSheets ? [PdfName] : Array.Empty<string>(), JsonName, CsvName, XlsxName, .. papers.Select(p => p.List.FileName), PapersName]);
    }

    public void Dispose()
    {
        json?.Dispose();
        jsonFile?.Dispose();
        csv?.Dispose();
        foreach (var (_, file, _) in papers)
            file.Dispose();
        pdfFile?.Dispose();
    }

    private void Open()
    {
        if (json is not null)
            return;
        jsonFile = open(JsonName);
        json = new Utf8JsonWriter(jsonFile, PacketJson.Writing);
        PacketJson.Begin(json, version);
        if (withSheets)
        {
            pdfFile = open(PdfName);
            pdf = new PdfWriter(pdfFile, "Shop packet");
        }

        csv = new StreamWriter(open(CsvName), new UTF8Encoding(encoderShouldEmitUTF8Identifier: false)) { NewLine = "\n" };
        csv.WriteLine(CutListFiles.CsvHeader);
        foreach (var list in PaperLists.All)
        {
            var file = new StreamWriter(open(list.FileName), new UTF8Encoding(encoderShouldEmitUTF8Identifier: false)) { NewLine = "\n" };
            file.WriteLine(list.Header);
            papers.Add((list, file, []));
        }
    }
}
