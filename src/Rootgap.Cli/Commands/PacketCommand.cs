using System.Buffers;
using System.CommandLine;
using System.Globalization;
using System.Text.Json;
using Rootgap.Findings;
using Rootgap.Packets;
using Rootgap.Sheets;

namespace Rootgap.Cli.Commands;

/// <summary><c>rootgap packet</c>: everything the shop needs for the drawings.</summary>
internal static class PacketCommand
{
    public static Command Create()
    {
        var drawings = DrawingArgument.Create();
        var folder = new Option<string>("--out") { Description = "Folder for the packet.", Required = true };
        var paper = PaperOption.Create();
        var dataOnly = new Option<bool>("--data-only") { Description = "Write packet.json and the cut lists, and no sheets: for thousands of drawings." };
        var json = JsonOption.Create();
        var command = new Command("packet", "Write the shop packet: cut lengths with their sums, joints, spools, material check, as paper and as data.\n\nExample: rootgap packet samples/hatchery --out packet") { drawings, folder, paper, dataOnly, json };
        command.SetAction(result => Run(result.GetValue(drawings)!, result.GetValue(folder)!, result.GetValue(dataOnly) ? null : PaperOption.Of(result.GetValue(paper)!), result.GetValue(json)));
        return command;
    }

    /// <summary>One drawing worked through: its part of packet.json and of the lists.</summary>
    private sealed record Done(string File, string Text, Packet? Packet, IReadOnlyList<Finding> Errors, byte[] Json, CutRow[] Cuts, IReadOnlyList<Scene> Sheets);

    private static int Run(string[] names, string folder, Paper? paper, bool asJson)
    {
        var files = DrawingFiles.Find(names, out var missing);
        if (DrawingArgument.Refuse(files, missing))
            return ExitCode.Unreadable;
        var exit = ExitCode.Done;
        var log = asJson ? Console.Error : Console.Out;
        var printer = FindingPrinter.ForConsole(log, asJson ? Console.IsErrorRedirected : Console.IsOutputRedirected);
        using var packet = new PacketFolder(folder, withSheets: paper is not null);
        foreach (var done in DrawingRun.Each(files, file => Work(file, paper)))
        {
            printer.Know(done.File, done.Text);
            if (done.Packet is null)
            {
                exit = Math.Max(exit, ExitCode.Unreadable);
                printer.Print(done.Errors);
                log.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{done.File}: cannot be read, {done.Errors.Count} {(done.Errors.Count == 1 ? "error" : "errors")}; nothing was written for it"));
                continue;
            }

            exit = Math.Max(exit, ExitCode.Of(done.Packet));
            packet.Add(done.Json, done.Cuts, done.Sheets);
            if (files.Count == 1)
                printer.Print(done.Packet.Findings);
            log.WriteLine(string.Create(CultureInfo.InvariantCulture,
                $"{done.File}: {done.Packet.Fabrication.Spools.Count} spools, {done.Cuts.Length} pieces; {FindingPrinter.Summary(done.Packet.Findings)}{(done.Packet.IsBuildable ? "" : "; NOT FOR FABRICATION")}"));
        }

        packet.Close();
        if (packet.Files.Count > 0)
            log.WriteLine($"The packet is in {folder}: {string.Join(", ", packet.Files)}");
        if (asJson)
            PrintJson(packet.Files.Count > 0 ? Path.Combine(folder, PacketFolder.JsonName) : null);
        return exit;
    }

    /// <summary>The packet as written, or one without drawings where none could be read: what is wrong with them stands on standard error.</summary>
    private static void PrintJson(string? file)
    {
        using var output = Console.OpenStandardOutput();
        if (file is not null)
        {
            using var stream = File.OpenRead(file);
            stream.CopyTo(output);
            return;
        }

        using var json = new Utf8JsonWriter(output, JsonOption.Writing);
        PacketJson.Begin(json, ThisProgram.Version);
        PacketJson.End(json);
    }

    private static Done Work(string file, Paper? paper)
    {
        var (text, reading) = DrawingFiles.Read(file);
        if (reading.Drawing is not { } drawing)
            return new(file, text, null, reading.Errors, [], [], []);
        var packet = Packet.Of(drawing);
        var buffer = new ArrayBufferWriter<byte>(32 << 10);
        using (var json = new Utf8JsonWriter(buffer, JsonOption.Writing))
            PacketJson.Write(json, packet);
        return new(file, text, packet, [], buffer.WrittenSpan.ToArray(), [.. CutRow.Of(packet)], paper is null ? [] : Sheets(packet, paper));
    }

    /// <summary>The sheets of a drawing. A fault of ours in drawing them must not cost the other drawings, nor this one's figures: a page says so in their place.</summary>
    private static Scene[] Sheets(Packet packet, Paper paper)
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
