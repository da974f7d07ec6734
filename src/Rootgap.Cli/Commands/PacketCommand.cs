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
        var folder = OutOption.Folder("Folder for the packet.");
        var paper = PaperOption.Create();
        var who = new Option<string?>("--for") { Description = $"Only the pages of one reader: {string.Join(", ", Readers.Words.Select(w => w.Word))}. All readers' pages in one file where it is left out." };
        who.AcceptOnlyFromAmong([.. Readers.Words.Select(w => w.Word)]);
        var dataOnly = new Option<bool>("--data-only") { Description = "Write packet.json and the cut lists, and no sheets: for thousands of drawings." };
        var json = JsonOption.Create();
        var command = new Command("packet", "Write the shop packet: cut lengths with their sums, joints, spools, material check, as paper and as data.\n\nExample: rootgap packet samples/hatchery --out packet\nExample: rootgap packet samples/hatchery --for saw --out packet") { drawings, folder, paper, who, dataOnly, json };
        command.SetAction(result => Run(result.GetValue(drawings)!, result.GetValue(folder)!, result.GetValue(dataOnly) ? null : PaperOption.Of(result.GetValue(paper)!), ReaderOf(result.GetValue(who)), result.GetValue(json)));
        return command;
    }

    /// <summary>One drawing worked through.</summary>
    /// <param name="Part">Null where it could not be read, or the program failed over it.</param>
    private sealed record Done(string File, string Text, PacketPart? Part, IReadOnlyList<Finding> Errors, bool IsFault = false);

    private static Reader ReaderOf(string? word) => word is null ? Reader.All : Readers.Words.First(w => w.Word == word).Reader;

    private static int Run(string[] names, string folder, Paper? paper, Reader who, bool asJson)
    {
        var drawings = DrawingFiles.Find(names, out var missing);
        if (DrawingArgument.Refuse(drawings, missing))
            return ExitCode.Unreadable;
        var exit = ExitCode.Done;
        var log = asJson ? Console.Error : Console.Out;
        var printer = FindingPrinter.ForConsole(log, asJson ? Console.IsErrorRedirected : Console.IsOutputRedirected);
        using var output = new OutputFolder(folder);
        using var files = new PacketFiles(ThisProgram.Version, paper, output.Create, who);
        foreach (var done in DrawingRun.Each(drawings, file => Work(file, paper, who)))
        {
            printer.Know(done.File, done.Text);
            if (done.Part is not { Packet: { } packet } part)
            {
                exit = Math.Max(exit, done.IsFault ? ExitCode.Stop : ExitCode.Unreadable);
                printer.Print(done.Errors);
                log.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{done.File}: {(done.IsFault ? "the program failed over it" : $"cannot be read, {done.Errors.Count} {(done.Errors.Count == 1 ? "error" : "errors")}")}; nothing was written for it"));
                continue;
            }

            var faults = files.Add(part);
            exit = Math.Max(exit, faults.Count > 0 ? ExitCode.Stop : ExitCode.Of(packet));
            if (drawings.Count == 1)
                printer.Print(packet.Findings, packet.Drawing);
            printer.Print(faults);
            log.WriteLine(string.Create(CultureInfo.InvariantCulture,
                $"{done.File}: {packet.Fabrication.Spools.Count} {(packet.Fabrication.Spools.Count == 1 ? "spool" : "spools")}, {part.Cuts.Count} {(part.Cuts.Count == 1 ? "piece" : "pieces")}; {FindingPrinter.Summary(packet.Findings)}{(packet.IsBuildable ? "" : "; NOT FOR FABRICATION")}"));
        }

        var missingLists = files.Close();
        printer.Print(missingLists);
        exit = Math.Max(exit, missingLists.Count > 0 ? ExitCode.Stop : ExitCode.Done);
        if (files.Names.Count > 0)
            output.Commit();
        if (files.Names.Count > 0)
            log.WriteLine($"The packet is in {folder}: {string.Join(", ", files.Names)}{(paper is null ? "" : string.Create(CultureInfo.InvariantCulture, $" ({files.Pages} pages)"))}");
        if (asJson)
            PrintJson(files.Names.Count > 0 ? Path.Combine(folder, PacketFiles.JsonName) : null);
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

    private static Done Work(DrawingFile file, Paper? paper, Reader who)
    {
        var (text, reading) = DrawingFiles.Read(file);
        if (reading.Drawing is not { } drawing)
            return new(file, text, null, reading.Errors, reading.Errors is [{ Rule: ProgramFault.Rule }]);
        var part = PacketPart.TryOf(drawing, paper, out var fault, who);
        return new(file, text, part, fault is null ? [] : [fault], fault is not null);
    }
}
