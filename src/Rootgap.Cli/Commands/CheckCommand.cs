using System.CommandLine;
using System.Globalization;
using System.Text.Json;
using Rootgap.Packets;

namespace Rootgap.Cli.Commands;

/// <summary><c>rootgap check</c>: what is wrong with drawings, before any steel is cut.</summary>
internal static class CheckCommand
{
    public static Command Create()
    {
        var drawings = DrawingArgument.Create();
        var json = JsonOption.Create();
        var command = new Command("check", "Check drawings before any steel is cut: what is wrong, where, and what to do.\n\nExample: rootgap check samples/hatchery") { drawings, json };
        command.SetAction(result => Run(result.GetValue(drawings)!, result.GetValue(json)));
        return command;
    }

    private static int Run(string[] names, bool asJson)
    {
        var files = DrawingFiles.Find(names, out var missing);
        if (DrawingArgument.Refuse(files, missing))
            return ExitCode.Unreadable;
        var exit = ExitCode.Done;
        using var output = asJson ? Console.OpenStandardOutput() : Stream.Null;
        using var json = new Utf8JsonWriter(output, JsonOption.Writing);
        json.WriteStartObject();
        json.WriteStartArray("drawings");
        var printer = FindingPrinter.ForConsole(Console.Out, Console.IsOutputRedirected);
        foreach (var (file, text, packet, errors) in DrawingRun.Each(files, file =>
                 {
                     var (text, reading) = DrawingFiles.Read(file);
                     var packet = reading.Drawing is { } drawing ? Packet.Of(drawing) : null;
                     return (file, text, packet, reading.Errors);
                 }))
        {
            exit = Math.Max(exit, packet is null ? ExitCode.Unreadable : ExitCode.Of(packet));
            var findings = packet?.Findings ?? errors;
            if (asJson)
            {
                json.WriteStartObject();
                json.WriteString("file", file);
                if (packet is not null)
                    json.WriteString("drawing", packet.Drawing.Number);
                json.WriteBoolean("readable", packet is not null);
                json.WriteStartArray("findings");
                foreach (var finding in findings)
                    PacketJson.Write(json, finding);
                json.WriteEndArray();
                json.WriteEndObject();
                continue;
            }

            printer.Know(file, text);
            printer.Print(findings);
            Console.Out.WriteLine(string.Create(CultureInfo.InvariantCulture,
                $"{file}: {(packet is null ? "cannot be read: " + errors.Count + (errors.Count == 1 ? " error" : " errors") : FindingPrinter.Summary(findings) + (packet.IsBuildable ? "" : "; can't be built as drawn"))}"));
        }

        json.WriteEndArray();
        json.WriteEndObject();
        return exit;
    }
}
