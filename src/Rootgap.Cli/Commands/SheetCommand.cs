using System.Buffers;
using System.CommandLine;
using System.Globalization;
using System.Text.Json;
using Rootgap.Findings;
using Rootgap.Packets;
using Rootgap.Sheets;

namespace Rootgap.Cli.Commands;

/// <summary><c>rootgap sheet</c>: the isometric sheets of drawings alone, as SVG, PDF or PNG.</summary>
internal static class SheetCommand
{
    private const double DotsPerInch = 150;

    private static readonly string[] Formats = ["svg", "pdf", "png"];

    public static Command Create()
    {
        var drawings = DrawingArgument.Create();
        var format = new Option<string>("--format") { Description = "svg (one file a sheet), pdf (one file a drawing) or png (one file a sheet).", DefaultValueFactory = _ => "pdf" };
        format.AcceptOnlyFromAmong(Formats);
        var folder = OutOption.Folder("Folder for the sheets.");
        var spool = new Option<string?>("--spool") { Description = "Only this spool: its isometric alone, then its sheet." };
        var paper = PaperOption.Create("A4", "A3", "Letter", "Tabloid");
        var json = JsonOption.Create();
        var command = new Command("sheet", "Write the isometric sheets of drawings.\n\nExample: rootgap sheet samples/hatchery --format svg --out sheets") { drawings, format, folder, paper, spool, json };
        command.SetAction(result => Run(
            result.GetValue(drawings)!, result.GetValue(format)!, result.GetValue(folder)!, PaperOption.Of(result.GetValue(paper)!), result.GetValue(spool), result.GetValue(json)));
        return command;
    }

    /// <summary>One drawing worked through.</summary>
    /// <param name="Faults">Sheets that the program failed to draw.</param>
    /// <param name="Files">What tells a file from the drawing's others, and what is in it.</param>
    /// <param name="Larger">Sheets that are on larger paper than was asked for.</param>
    private sealed record Done(OpenedDrawing Drawing, IReadOnlyList<Finding> Faults, IReadOnlyList<(string Which, byte[] Content)> Files, IReadOnlyList<Page> Larger);

    private static int Run(string[] names, string format, string folder, Paper paper, string? spool, bool asJson)
    {
        var files = DrawingFiles.Find(names, out var missing);
        if (DrawingArgument.Refuse(files, missing))
            return ExitCode.Unreadable;
        var exit = ExitCode.Done;
        var log = asJson ? Console.Error : Console.Out;
        var printer = FindingPrinter.ForConsole(log, asJson ? Console.IsErrorRedirected : Console.IsOutputRedirected);
        var written = new List<(string Drawing, string File)>();
        using var output = new OutputFolder(folder);
        foreach (var (drawing, faults, content, larger) in DrawingRun.Each(files, file => Work(file, format, paper, spool)))
        {
            printer.Know(drawing.File, drawing.Text);
            exit = Math.Max(exit, faults.Count > 0 ? Math.Max(ExitCode.Stop, drawing.Exit) : drawing.Exit);
            printer.Print(faults);
            if (drawing.Packet is not { } packet)
            {
                printer.Print(drawing.Findings);
                log.WriteLine($"{drawing.File}: {drawing.WhyNot}; no sheet was written for it");
                continue;
            }

            if (content.Count == 0)
            {
                log.WriteLine(spool is null || faults.Count > 0
                    ? $"{drawing.File}: there is nothing to draw"
                    : $"{drawing.File}: there is no spool {spool}; it has {string.Join(", ", packet.Fabrication.Spools.Select(s => s.Name))}");
                continue;
            }

            // One name for all sheets of a drawing: those of another drawing of the same number go by another.
            var name = output.Free(spool is null ? packet.Drawing.Number : $"{packet.Drawing.Number}-{spool}", "");
            foreach (var (which, bytes) in content)
            {
                output.Write($"{name}{which}.{format}", bytes);
                written.Add((packet.Drawing.Number, output.PathOf($"{name}{which}.{format}")));
            }

            log.WriteLine($"{drawing.File}: {string.Join(", ", written.TakeLast(content.Count).Select(w => Path.GetFileName(w.File)))}{(packet.IsBuildable ? "" : "; NOT FOR FABRICATION")}");
            foreach (var page in larger)
                log.WriteLine($"  {page.Block.Title} is on {page.Paper.Name}: {paper.Name} has no room for all its words at 2.5 mm");
        }

        output.Commit();
        if (asJson)
            Print(written);
        return spool is not null && written.Count == 0 && exit < ExitCode.Unreadable ? ExitCode.Usage : exit;
    }

    private static void Print(List<(string Drawing, string File)> written)
    {
        var buffer = new ArrayBufferWriter<byte>();
        using (var json = new Utf8JsonWriter(buffer, JsonOption.Writing))
        {
            json.WriteStartObject();
            json.WriteStartArray("sheets");
            foreach (var (drawing, file) in written)
            {
                json.WriteStartObject();
                json.WriteString("drawing", drawing);
                json.WriteString("file", file);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteEndObject();
        }

        using var output = Console.OpenStandardOutput();
        output.Write(buffer.WrittenSpan);
        output.WriteByte((byte)'\n');
    }

    private static Done Work(DrawingFile file, string format, Paper paper, string? spool)
    {
        var opened = DrawingFiles.Open(file);
        if (opened.Packet is not { } packet)
            return new(opened, [], [], []);
        try
        {
            var job = packet.ToJob(paper);
            IReadOnlyList<Page> pages = spool is null
                ? IsometricPages.Of(job, withLists: true)
                : [.. packet.Fabrication.Spools.Where(s => s.Name == spool).SelectMany(s => ShopPages.Of(job, s).Prepend(IsometricPages.Of(job, s)))];
            var scenes = new Booklet(packet.Drawing.Number, pages).Scenes().ToList();
            return new(opened, [.. MissingSheet.Told(pages)], [.. Write(scenes, packet.Drawing.Number, format)], [.. pages.Where(p => p.Paper.Name != paper.Name)]);
        }
        catch (Exception e) when (ProgramFault.IsOne(e))
        {
            return new(opened, [ProgramFault.Of("The sheets of this drawing could not be written", ProgramFault.Words(e), "Its figures are in the packet's packet.json.", where: new(file, 0, 0, 0))], [], []);
        }
    }

    private static IEnumerable<(string Which, byte[] Content)> Write(List<Scene> scenes, string title, string format)
    {
        if (scenes.Count == 0)
            yield break;
        if (format == "pdf")
        {
            using var pdf = new MemoryStream();
            PdfWriter.Write(pdf, title, scenes);
            yield return ("", pdf.ToArray());
            yield break;
        }

        for (var i = 0; i < scenes.Count; i++)
        {
            using var stream = new MemoryStream();
            if (format == "svg")
                SvgWriter.Write(scenes[i], stream);
            else
                PngWriter.Write(scenes[i], DotsPerInch, stream);
            yield return (string.Create(CultureInfo.InvariantCulture, $"-{i + 1}"), stream.ToArray());
        }
    }
}
