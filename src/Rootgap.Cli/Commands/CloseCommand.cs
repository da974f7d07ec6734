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

    private const long LargestSurvey = 4 << 20;

    private static int Run(Request request)
    {
        if (SiteDrawing.Read(request.Drawing) is not { } packet)
            return ExitCode.Unreadable;
        var printer = FindingPrinter.ForConsole(Console.Error, Console.IsErrorRedirected);
        var line = SiteLine.Of(packet.Fabrication);
        if (ReadSurvey(line, request, printer) is not { } survey)
            return ExitCode.Unreadable;
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

    /// <summary>The survey, or one without readings where none is given; null after the errors were told.</summary>
    private static Survey? ReadSurvey(SiteLine line, Request request, FindingPrinter printer)
    {
        if (request.Survey is not { } file)
            return new();
        if (!File.Exists(file))
        {
            Console.Error.WriteLine($"{file}: there is no such file.");
            return null;
        }

        var bytes = InputFile.Bytes(file, LargestSurvey);
        if (!file.EndsWith(".xlsx", StringComparison.OrdinalIgnoreCase))
            printer.Know(file, System.Text.Encoding.UTF8.GetString(bytes));
        var read = SurveyReading.Read(line, file, bytes, name => InputFile.Beside(file, name, LargestSurvey));
        if (read.Errors.Count == 0)
            return read.Survey;
        printer.Print(read.Errors);
        return null;
    }
}
