using System.CommandLine;
using System.Text.Json;
using Rootgap.Packets;
using Rootgap.Site;
using Rootgap.Site.Closing;
using Rootgap.Site.Surveys;

namespace Rootgap.Cli.Commands;

/// <summary><c>rootgap close</c>: from what was measured at site to what is cut, what no cut takes away, and what is moved.</summary>
internal static class CloseCommand
{
    private sealed record Request(string Drawing, string? Survey, bool Json);

    public static Command Create()
    {
        var drawing = new Argument<string>("DRAWING") { Description = "The drawing file (YAML)." };
        var survey = new Option<string?>("--survey") { Description = "What was measured: a survey file (YAML), or readings alone (CSV, XLSX)." };
        var json = JsonOption.Create();
        var command = new Command("close", "Where everything stands by what was measured, what is cut at each final-fit weld, what no cut takes away and what to move.\n\nExample: rootgap close line.yaml --survey monday.yaml") { drawing, survey, json };
        command.SetAction(r => Run(new(r.GetValue(drawing)!, r.GetValue(survey), r.GetValue(json))));
        return command;
    }

    private static int Run(Request request)
    {
        var printer = FindingPrinter.ForConsole(Console.Error, Console.IsErrorRedirected);
        if (!File.Exists(request.Drawing))
            return Refuse(ExitCode.Unreadable, $"{request.Drawing}: there is no such file.");
        var (text, reading) = DrawingFiles.Read(request.Drawing);
        printer.Know(request.Drawing, text);
        if (reading.Drawing is not { } drawing)
        {
            printer.Print(reading.Errors);
            return ExitCode.Unreadable;
        }

        var packet = Packet.Of(drawing);
        var line = SiteLine.Of(packet.Fabrication);
        var survey = new Survey();
        if (request.Survey is { } file)
        {
            if (!File.Exists(file))
                return Refuse(ExitCode.Unreadable, $"{file}: there is no such file.");
            var bytes = File.ReadAllBytes(file);
            if (!file.EndsWith(".xlsx", StringComparison.OrdinalIgnoreCase))
                printer.Know(file, System.Text.Encoding.UTF8.GetString(bytes));
            var read = SurveyReading.Read(line, file, bytes, name => DrawingFiles.BytesBeside(file, name));
            if (read.Errors.Count > 0)
            {
                printer.Print(read.Errors);
                return ExitCode.Unreadable;
            }

            survey = read.Survey;
        }

        var (closing, errors) = LineClosing.Of(line, survey);
        if (closing is null)
        {
            printer.Print(errors);
            return ExitCode.Unreadable;
        }

        var say = ClosingWords.Say(closing);
        if (request.Json)
        {
            using var json = new Utf8JsonWriter(Console.OpenStandardOutput(), JsonOption.Writing);
            ClosingJson.Write(json, closing, say);
        }
        else
        {
            foreach (var sentence in say)
                Console.Out.WriteLine(sentence);
        }

        return closing.IsClosed ? ExitCode.Done : ExitCode.Warn;
    }

    private static int Refuse(int code, string message)
    {
        Console.Error.WriteLine(message);
        return code;
    }
}
