using System.Buffers;
using System.Text;
using System.Text.Json;
using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Sheets;

namespace Rootgap.Packets;

/// <summary>One drawing worked through: its part of packet.json, of the cut list and of the sheets.</summary>
/// <param name="Json">UTF-8, one object.</param>
/// <param name="Papers">Rows of each of <see cref="PaperLists.All"/>.</param>
/// <param name="Job">What the lists over all drawings take their rows from; null where no sheets are wanted.</param>
/// <param name="Sheets">Its own pages, of the reader that they are made for; empty where no sheets are wanted.</param>
/// <param name="Faults">Sheets that the program failed to draw: a page that says so stands among the others.</param>
public sealed record PacketPart(Packet Packet, byte[] Json, IReadOnlyList<CutRow> Cuts, IReadOnlyList<IReadOnlyList<object?[]>> Papers, ShopJob? Job, IReadOnlyList<Page> Sheets, IReadOnlyList<Finding> Faults)
{
    /// <param name="paper">Paper of the sheets; null for no sheets.</param>
    /// <param name="who">Whose pages are wanted.</param>
    public static PacketPart Of(Packet packet, Paper? paper, Reader who = Reader.All)
    {
        var buffer = new ArrayBufferWriter<byte>(32 << 10);
        using (var json = new Utf8JsonWriter(buffer, PacketJson.Writing))
            PacketJson.Write(json, packet);
        var job = paper is null ? null : packet.ToJob(paper);
        var pages = job is null ? [] : ShopPages.Of(job, who);
        return new(packet, buffer.WrittenSpan.ToArray(), [.. CutRow.Of(packet)], [.. PaperLists.All.Select(l => (IReadOnlyList<object?[]>)[.. l.Rows(packet)])], job, pages, [.. MissingSheet.Told(pages)]);
    }

    /// <summary>As <see cref="Of(Packet, Paper?, Reader)"/>; where the program fails over this drawing, null and what is to be told of it.</summary>
    public static PacketPart? TryOf(Drawing drawing, Paper? paper, out Finding? fault, Reader who = Reader.All)
    {
        if (Packet.TryOf(drawing, out fault) is not { } packet)
            return null;
        try
        {
            return Of(packet, paper, who);
        }
        catch (Exception e) when (ProgramFault.IsOne(e))
        {
            fault = ProgramFault.Of("The packet of this drawing could not be written", ProgramFault.Words(e), "Nothing is made from it; the other drawings are not touched by this.", drawing.Source.Path, drawing.Source["drawing"]);
            return null;
        }
    }
}

/// <summary>
/// The files of a packet while they are written, drawing by drawing: nothing is held but the rows of the lists and where each page lies in the file.
/// Pages are bound by reader when all are there. Where the files go is the caller's business.
/// </summary>
/// <param name="version">The program's version, for packet.json.</param>
/// <param name="paper">Paper of the sheets; null for no PDF.</param>
/// <param name="open">Opens a file of that name for writing; called when the first drawing comes, so that a packet without drawings leaves no files.</param>
/// <param name="who">Whose pages are in the PDF.</param>
public sealed class PacketFiles(string version, Paper? paper, Func<string, Stream> open, Reader who = Reader.All) : IDisposable
{
    public const string JsonName = "packet.json";
    public const string CsvName = "cut-list.csv";
    public const string PdfName = "shop.pdf";
    public const string XlsxName = "cut-list.xlsx";
    public const string PapersName = "papers.xlsx";

    private readonly List<CutRow> rows = [];
    private readonly List<(PaperList List, StreamWriter Csv, List<object?[]> Rows)> papers = [];
    private readonly JobPages lists = new();
    private readonly List<Laid> laid = [];
    private Stream? jsonFile;
    private Utf8JsonWriter? json;
    private StreamWriter? csv;
    private Stream? pdfFile;
    private PdfWriter? pdf;

    /// <summary>A page that is written and waits for its place. Of its marks nothing is kept.</summary>
    private sealed record Laid(LaidPage At, Page Page);

    /// <summary>What was written, in order; filled by <see cref="Close"/>.</summary>
    public List<string> Names { get; } = [];

    /// <summary>How many pages the PDF has; known after <see cref="Close"/>.</summary>
    public int Pages => laid.Count;

    /// <summary>Name of the PDF: a reader's own pages have his name.</summary>
    public string SheetsName => who == Reader.All ? PdfName : Readers.Words.First(w => w.Reader == who).Word + ".pdf";

    /// <summary>Adds a drawing. What is to be told of it: sheets that the program failed to draw or to write.</summary>
    /// <param name="page">Told before each page is written: which of how many, from 1.</param>
    public IReadOnlyList<Finding> Add(PacketPart part, Action<int, int>? page = null)
    {
        Open();
        var faults = part.Faults.ToList();
        if (part.Job is { } job)
            lists.Add(job);
        for (var i = 0; pdf is not null && i < part.Sheets.Count; i++)
        {
            page?.Invoke(i + 1, part.Sheets.Count);
            Lay(part.Sheets[i], faults);
        }

        json!.WriteRawValue(part.Json, skipInputValidation: true);
        if (json.BytesPending > 1 << 20)
            json.Flush();
        foreach (var row in part.Cuts)
            csv!.WriteLine(CutListFiles.Csv(row));
        rows.AddRange(part.Cuts.Take(CutListFiles.MostXlsxRows - rows.Count));
        foreach (var (list, added) in papers.Zip(part.Papers))
        {
            foreach (var row in added)
                list.Csv.WriteLine(PaperList.Csv(row));
            list.Rows.AddRange(added.Take(CutListFiles.MostXlsxRows - list.Rows.Count));
        }

        return faults;
    }

    /// <summary>Finishes the files. Where no drawing came, there is nothing to finish and nothing was written.</summary>
    /// <returns>Lists over all drawings that the program failed to draw or to write.</returns>
    public IReadOnlyList<Finding> Close()
    {
        if (json is null)
            return [];
        List<Finding> faults = [];
        PacketJson.End(json);
        json.Dispose();
        jsonFile!.Dispose();
        csv!.Dispose();
        Bind(faults);
        pdf?.Dispose();
        pdfFile?.Dispose();
        using (var xlsx = open(XlsxName))
            CutListFiles.Xlsx(xlsx, rows);
        foreach (var (_, file, _) in papers)
            file.Dispose();
        using (var xlsx = open(PapersName))
            Workbook.Write(xlsx, [.. papers.Select(p => (p.List.Name, p.List.Sheet(p.Rows)))]);
        Names.AddRange([.. paper is not null ? [SheetsName] : Array.Empty<string>(), JsonName, CsvName, XlsxName, .. papers.Select(p => p.List.FileName), PapersName]);
        return faults;
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

    private void Lay(Page page, List<Finding> faults)
    {
        LaidPage at;
        try
        {
            at = pdf!.Lay(page.Unnumbered());
        }
        catch (Exception e) when (ProgramFault.IsOne(e))
        {
            var instead = MissingSheet.Of(page.Block.Drawing, page.Block.Revision, page.Block.Title, page.Paper, ProgramFault.Words(e));
            page = instead with { Block = instead.Block with { Reader = page.Block.Reader, Spool = page.Block.Spool } };
            faults.AddRange(MissingSheet.Told([page]));
            at = pdf!.Lay(page.Unnumbered());
        }

        laid.Add(new(at, page with { Marks = [] }));
    }

    // All pages in their order: readers as they are bound, within each the drawings as they came.
    private void Bind(List<Finding> faults)
    {
        if (pdf is null || paper is null)
            return;
        foreach (var page in lists.Lists(paper, who))
            Lay(page, faults);
        if (who.Takes(Reader.All))
            LayCover(faults);
        var outline = new Outline();
        var ordered = laid.OrderBy(l => l.Page.Block.Reader).ToList();
        for (var i = 0; i < ordered.Count; i++)
            pdf.Bind(ordered[i].At, ordered[i].Page.Number(i + 1, ordered.Count), outline.Of(ordered[i].Page));
    }

    private void LayCover(List<Finding> faults)
    {
        var ordered = laid.OrderBy(l => l.Page.Block.Reader).Select(l => l.Page.Block).ToList();
        var counts = ordered.GroupBy(b => b.Reader).Select(g => (g.Key, g.Count())).ToList();
        var firsts = new Dictionary<string, (int Isometric, int Spool)>(StringComparer.Ordinal);
        for (var i = 0; i < ordered.Count; i++)
        {
            var at = firsts.GetValueOrDefault(ordered[i].Drawing);
            if (ordered[i].Reader == Reader.Foreman && at.Isometric == 0)
                firsts[ordered[i].Drawing] = at with { Isometric = i + 1 };
            else if (ordered[i].Reader == Reader.Fitter && at.Spool == 0)
                firsts[ordered[i].Drawing] = at with { Spool = i + 1 };
        }

        foreach (var page in lists.Cover(paper!, counts, firsts))
            Lay(page, faults);
    }

    /// <summary>The PDF's outline: reader, drawing, spool, sheet.</summary>
    private sealed class Outline
    {
        private Reader? reader;
        private string drawing = "", spool = "";

        public IEnumerable<Bookmark> Of(Page page)
        {
            var block = page.Block;
            var level = 1;
            if (reader != block.Reader)
            {
                (reader, drawing, spool) = (block.Reader, "", "");
                yield return new(block.Reader.Tab());
            }

            if (block.Drawing.Length > 0)
            {
                level = 2;
                if (drawing != block.Drawing)
                {
                    (drawing, spool) = (block.Drawing, "");
                    yield return new(block.Drawing, level);
                }
            }

            if (block.Spool.Length > 0)
            {
                level = 3;
                if (spool != block.Spool)
                {
                    spool = block.Spool;
                    yield return new($"spool {spool}", level);
                }
            }

            foreach (var bookmark in page.Bookmarks)
                yield return bookmark with { Level = bookmark.Level + level };
        }
    }

    private void Open()
    {
        if (json is not null)
            return;
        jsonFile = open(JsonName);
        json = new Utf8JsonWriter(jsonFile, PacketJson.Writing);
        PacketJson.Begin(json, version);
        if (paper is not null)
        {
            pdfFile = open(SheetsName);
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
