using System.Text.Json;
using Rootgap.Cli.Commands;
using Rootgap.Packets;
using Rootgap.Sheets;

namespace Rootgap.Cli;

/// <summary>The folder of a packet while it is written, drawing by drawing: nothing is held but the rows of the cut list, which a workbook needs at its end.</summary>
internal sealed class PacketFolder(string folder, bool withSheets) : IDisposable
{
    public const string JsonName = "packet.json";
    private const string CsvName = "cut-list.csv";
    private const string PdfName = "shop.pdf";
    private const string XlsxName = "cut-list.xlsx";

    private FileStream? jsonFile;
    private Utf8JsonWriter? json;
    private StreamWriter? csv;
    private FileStream? pdfFile;
    private PdfWriter? pdf;
    private readonly List<CutRow> rows = [];

    /// <summary>What was written, in order.</summary>
    public List<string> Files { get; } = [];

    public void Add(byte[] part, IReadOnlyList<CutRow> cuts, IReadOnlyList<Scene> sheets)
    {
        Open();
        foreach (var sheet in sheets)
            pdf!.Add(sheet);
        json!.WriteRawValue(part, skipInputValidation: true);
        if (json.BytesPending > 1 << 20)
            json.Flush();
        foreach (var row in cuts)
            csv!.WriteLine(CutListFiles.Csv(row));
        rows.AddRange(cuts.Take(CutListFiles.MostXlsxRows - rows.Count));
    }

    /// <summary>Finishes the files. Where no drawing could be read, there is nothing to finish and nothing was written.</summary>
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
        using var xlsx = File.Create(Path.Combine(folder, XlsxName));
        CutListFiles.Xlsx(xlsx, rows);
        Files.AddRange(withSheets ? [PdfName, JsonName, CsvName, XlsxName] : [JsonName, CsvName, XlsxName]);
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
        Directory.CreateDirectory(folder);
        jsonFile = File.Create(Path.Combine(folder, JsonName));
        json = new Utf8JsonWriter(jsonFile, JsonOption.Writing);
        PacketJson.Begin(json, ThisProgram.Version);
        if (withSheets)
        {
            pdfFile = File.Create(Path.Combine(folder, PdfName));
            pdf = new PdfWriter(pdfFile, "Shop packet");
        }

        csv = new StreamWriter(Path.Combine(folder, CsvName)) { NewLine = "\n" };
        csv.WriteLine(CutListFiles.CsvHeader);
    }
}
