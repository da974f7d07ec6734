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
        var folder = new Option<string>("--out") { Description = "Folder for the sheets.", Required = true };
        var spool = new Option<string?>("--spool") { Description = "Only this spool: its isometric alone, then its sheet." };
        var paper = PaperOption.Create("A4", "A3", "Letter", "Tabloid");
        var json = JsonOption.Create();
        var command = new Command("sheet", "Write the isometric sheets of drawings.\n\nExample: rootgap sheet samples/hatchery --format svg --out sheets") { drawings, format, folder, paper, spool, json };
        command.SetAction(result => Run(
            result.GetValue(drawings)!, result.GetValue(format)!, result.GetValue(folder)!, PaperOption.Of(result.GetValue(paper)!), result.GetValue(spool), result.GetValue(json)));
        return command;
    }

    private sealed record Done(string File, string Text, Packet? Packet, IReadOnlyList<Finding> Errors, IReadOnlyList<(string Name, byte[] Content)> Files);

    private static int Run(string[] names, string format, string folder, Paper paper, string? spool, bool asJson)
    {
        var files = DrawingFiles.Find(names, out var missing);
        if (DrawingArgument.Refuse(files, missing))
            return ExitCode.Unreadable;
        var exit = ExitCode.Done;
        var log = asJson ? Console.Error : Console.Out;
        var printer = FindingPrinter.ForConsole(log, asJson ? Console.IsErrorRedirected : Console.IsOutputRedirected);
        var written = new List<(string Drawing, string File)>();
        var taken = new HashSet<string>(StringComparer.OrdinalIgnoreCase);
        foreach (var done in DrawingRun.Each(files, file => Work(file, format, paper, spool)))
        {
            printer.Know(done.File, done.Text);
            if (done.Packet is not { } packet)
            {
                exit = Math.Max(exit, ExitCode.Unreadable);
                printer.Print(done.Errors);
                log.WriteLine($"{done.File}: cannot be read; no sheet was written for it");
                continue;
            }

            exit = Math.Max(exit, ExitCode.Of(packet));
            if (done.Files.Count == 0)
            {
                log.WriteLine(spool is null
                    ? $"{done.File}: there is nothing to draw"
                    : $"{done.File}: there is no spool {spool}; it has {string.Join(", ", packet.Fabrication.Spools.Select(s => s.Name))}");
                continue;
            }

            Directory.CreateDirectory(folder);
            foreach (var (name, content) in done.Files)
            {
                var path = Path.Combine(folder, Free(name, taken));
                File.WriteAllBytes(path, content);
                written.Add((packet.Drawing.Number, path));
            }

            log.WriteLine($"{done.File}: {string.Join(", ", written.TakeLast(done.Files.Count).Select(w => Path.GetFileName(w.File)))}{(packet.IsBuildable ? "" : "; NOT FOR FABRICATION")}");
        }

        if (asJson)
            Print(written);
        return spool is not null && written.Count == 0 && exit < ExitCode.Unreadable ? ExitCode.Usage : exit;
    }

    /// <summary>Two drawings of one number do not write over each other.</summary>
    private static string Free(string name, HashSet<string> taken)
    {
        var free = name;
        for (var i = 2; !taken.Add(free); i++)
            free = string.Create(CultureInfo.InvariantCulture, $"{Path.GetFileNameWithoutExtension(name)}-{i}{Path.GetExtension(name)}");
        return free;
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

    private static Done Work(string file, string format, Paper paper, string? spool)
    {
        var (text, reading) = DrawingFiles.Read(file);
        if (reading.Drawing is not { } drawing)
            return new(file, text, null, reading.Errors, []);
        var packet = Packet.Of(drawing);
        var job = packet.ToJob(paper);
        IReadOnlyList<Page> pages = spool is null
            ? IsometricPages.Of(job, withLists: true)
            : [.. packet.Fabrication.Spools.Where(s => s.Name == spool).SelectMany(s => ShopPages.Of(job, s).Prepend(IsometricPages.Of(job, s)))];
        var scenes = new Booklet(drawing.Number, pages).Scenes().ToList();
        var name = string.Concat((spool is null ? drawing.Number : $"{drawing.Number}-{spool}").Select(c => char.IsAsciiLetterOrDigit(c) || c is '-' or '_' or '.' ? c : '_'));
        return new(file, text, packet, [], [.. Write(scenes, name, format)]);
    }

    private static IEnumerable<(string Name, byte[] Content)> Write(List<Scene> scenes, string name, string format)
    {
        if (scenes.Count == 0)
            yield break;
        if (format == "pdf")
        {
            using var pdf = new MemoryStream();
            PdfWriter.Write(pdf, name, scenes);
            yield return (name + ".pdf", pdf.ToArray());
            yield break;
        }

        for (var i = 0; i < scenes.Count; i++)
        {
            using var stream = new MemoryStream();
            if (format == "svg")
                SvgWriter.Write(scenes[i], stream);
            else
                PngWriter.Write(scenes[i], DotsPerInch, stream);
            yield return (string.Create(CultureInfo.InvariantCulture, $"{name}-{i + 1}.{format}"), stream.ToArray());
        }
    }
}
