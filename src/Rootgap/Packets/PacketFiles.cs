using System.Buffers;
using System.Text;
using System.Text.Json;
using Rootgap.Sheets;

namespace Rootgap.Packets;

/// <summary>One drawing worked through: its part of packet.json, of the cut list and of the sheets.</summary>
/// <param name="Json">UTF-8, one object.</param>
/// <param name="Sheets">Empty where no sheets are wanted.</param>
public sealed record PacketPart(Packet Packet, byte[] Json, IReadOnlyList<CutRow> Cuts, IReadOnlyList<Scene> Sheets)
{
    /// <param name="paper">Paper of the sheets; null for no sheets.</param>
    public static PacketPart Of(Packet packet, Paper? paper)
    {
        var buffer = new ArrayBufferWriter<byte>(32 << 10);
        using (var json = new Utf8JsonWriter(buffer, PacketJson.Writing))
            PacketJson.Write(json, packet);
        return new(packet, buffer.WrittenSpan.ToArray(), [.. CutRow.Of(packet)], paper is null ? [] : SheetsOf(packet, paper));
    }

    /// <summary>The sheets of a drawing. A fault of ours in drawing them must not cost the other drawings, nor this one's figures: a page says so in their place.</summary>
    private static Scene[] SheetsOf(Packet packet, Paper paper)
    {
        try
        {
            return [.. new Booklet(packet.Drawing.Number, ShopPages.Of(packet.ToJob(paper))).Section()];
        }
        catch (Exception e) when (e is InvalidOperationException or ArgumentException or IndexOutOfRangeException or NullReferenceException or OverflowException)
        {
            var block = new TitleBlock(packet.Drawing.Number, packet.Drawing.Revision, "Sheets missing") { Notice = "NOT FOR FABRICATION" };
            var page = new Flow(paper, block)
                .Warning($"The sheets of this drawing could not be drawn: a fault in the program ({e.GetType().Name}: {e.Message}). Its figures are in packet.json and in the cut list.", "Sheets missing")
                .Paragraph("Send the drawing file with this page to whoever looks after the program.");
            return [.. new Booklet(packet.Drawing.Number, page.Pages).Section()];
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

    private readonly List<CutRow> rows = [];
    private Stream? jsonFile;
    private Utf8JsonWriter? json;
    private StreamWriter? csv;
    private Stream? pdfFile;
    private PdfWriter? pdf;

    /// <summary>What was written, in order; filled by <see cref="Close"/>.</summary>
    public List<string> Names { get; } = [];

    /// <summary>Adds a drawing.</summary>
    /// <param name="page">Told before each page is written: which of how many, from 1.</param>
    public void Add(PacketPart part, Action<int, int>? page = null)
    {
        Open();
        if (pdf is not null)
        {
            for (var i = 0; i < part.Sheets.Count; i++)
            {
                page?.Invoke(i + 1, part.Sheets.Count);
                pdf.Add(part.Sheets[i]);
            }
        }

        json!.WriteRawValue(part.Json, skipInputValidation: true);
        if (json.BytesPending > 1 << 20)
            json.Flush();
        foreach (var row in part.Cuts)
            csv!.WriteLine(CutListFiles.Csv(row));
        rows.AddRange(part.Cuts.Take(CutListFiles.MostXlsxRows - rows.Count));
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
        Names.AddRange(withSheets ? [PdfName, JsonName, CsvName, XlsxName] : [JsonName, CsvName, XlsxName]);
    }

    public void Dispose()
    {
        json?.Dispose();
        jsonFile?.Dispose();
        csv?.Dispose();
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
    }
}
