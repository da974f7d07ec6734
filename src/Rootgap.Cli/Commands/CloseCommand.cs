using System.CommandLine;
using System.Text.Json;
using Rootgap.Packets;
using Rootgap.Sheets;
using Rootgap.Site;
using Rootgap.Site.Closing;
using Rootgap.Site.Surveys;

namespace Rootgap.Cli.Commands;

/// <summary><c>rootgap close</c>: from what was measured at site to what is cut, what no cut takes away, and what is moved.</summary>
internal static class CloseCommand
{
    private sealed record Request(string Drawing, string? Survey, string? Out, Paper Paper, bool Blank, string? Begin, bool Json);

    public static Command Create()
    {
        var drawing = new Argument<string>("DRAWING") { Description = "The drawing file (YAML)." };
        var survey = new Option<string?>("--survey") { Description = "What was measured: a survey file (YAML), or readings alone (CSV, XLSX)." };
        var folder = OutOption.Named(new Option<string?>("--out") { Description = "Folder for the sheets: closing sheets with the wrap-around in true size and the isometric as built, or with --blank the survey sheets to fill in." });
        var blank = new Option<bool>("--blank") { Description = "Survey sheets to fill in: which readings to take, in the order in which they tell most. Give --out." };
        var begin = OutOption.Named(new Option<string?>("--begin") { Description = "Write a survey file to begin with: places that the drawing says were surveyed (at:), and the readings that tell most, to fill in." });
        var paper = PaperOption.Create();
        var json = JsonOption.Create();
        var command = new Command("close", "Where everything stands by what was measured, what is cut at each final-fit weld, what no cut takes away and what to move.\n\nExample: rootgap close line.yaml --survey monday.yaml --out sheets") { drawing, survey, folder, blank, begin, paper, json };
        command.SetAction(r => Run(new(r.GetValue(drawing)!, r.GetValue(survey), r.GetValue(folder), PaperOption.Of(r.GetValue(paper)!), r.GetValue(blank), r.GetValue(begin), r.GetValue(json))));
        return command;
    }

    private const long LargestSurvey = 4 << 20;

    private static int Run(Request request)
    {
        if (SiteDrawing.Read(request.Drawing) is not { } packet)
            return ExitCode.Unreadable;
        var printer = FindingPrinter.ForConsole(Console.Error, Console.IsErrorRedirected);
        var line = SiteLine.Of(packet.Fabrication);
        if (ReadSurvey(line, request.Survey, printer) is not { } survey)
            return ExitCode.Unreadable;
        if (request.Begin is { } file)
            return Begin(file, line, survey);
        if (request.Blank)
            return Blank(request, packet, line, survey);

        var (closing, errors) = LineClosing.Of(line, survey);
        if (closing is null)
        {
            printer.Print(errors);
            return ExitCode.Unreadable;
        }

        var say = new ClosingWords(packet.Drawing.Units).Say(closing);
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

        if (request.Out is not null)
            Sheets(request, packet, closing, say);
        return closing.IsClosed ? ExitCode.Done : ExitCode.Warn;
    }

    // One set: closing and isometric as built are of the same survey, or the old ones of an older one.
    private static void Sheets(Request request, Packet packet, LineClosing closing, IReadOnlyList<string> say)
    {
        using var output = new OutputFolder(request.Out!);
        var name = Write(output, "closing", packet, ClosingSheets.Of(packet.ToJob(request.Paper), closing, say));
        var built = AsBuiltSheets.Of(packet.ToJob(request.Paper), closing.Adjustment) is { Count: > 0 } pages ? Write(output, "as built", packet, pages) : null;
        output.Commit();
        if (request.Json)
            return;
        Console.Out.WriteLine($"Closing sheets: {name}");
        if (built is not null)
            Console.Out.WriteLine($"Isometric as built: {built}");
    }

    private static int Blank(Request request, Packet packet, SiteLine line, Survey survey)
    {
        if (request.Out is not { } folder)
        {
            Console.Error.WriteLine("--blank writes sheets: say where with --out FOLDER.");
            return ExitCode.Usage;
        }

        var pages = SurveySheets.Of(packet.ToJob(request.Paper), line, survey);
        if (pages.Count == 0)
        {
            Console.Error.WriteLine("There is no final-fit weld to be surveyed for in this drawing.");
            return ExitCode.Warn;
        }

        using var output = new OutputFolder(folder);
        var name = Write(output, "survey", packet, pages);
        output.Commit();
        Console.Out.WriteLine($"Survey sheets: {name}");
        return ExitCode.Done;
    }

    private static string Write(OutputFolder output, string what, Packet packet, IReadOnlyList<Page> pages)
    {
        var name = output.Free($"{what} {packet.Drawing.Number}", ".pdf");
        using (var stream = output.Create(name))
            new Booklet($"{packet.Drawing.Number} {what}", pages).WritePdf(stream);
        return output.PathOf(name);
    }

    private static int Begin(string file, SiteLine line, Survey survey)
    {
        if (File.Exists(file))
        {
            Console.Error.WriteLine($"{file} is there already: give another name, so that no reading is lost.");
            return ExitCode.Usage;
        }

        OutputFile.Write(file, to => to.Write(System.Text.Encoding.UTF8.GetBytes(SurveyText.Begin(line, survey))));
        Console.Out.WriteLine($"Survey to fill in: {file}");
        return ExitCode.Done;
    }

    /// <summary>The measured ends of a survey file, for what is reckoned before anything is surveyed; null after the errors were told.</summary>
    internal static IReadOnlyDictionary<string, (FitUp.PoseError Off, FitUp.PoseError Sd)>? ReadAsBuilt(Packet packet, string file)
    {
        if (ReadSurvey(SiteLine.Of(packet.Fabrication), file, FindingPrinter.ForConsole(Console.Error, Console.IsErrorRedirected)) is not { } read)
            return null;
        if (read.AsBuilt.Count == 0)
            Console.Error.WriteLine($"{file}: has no `as built`: every spool is taken as drawn.");
        return read.AsBuilt;
    }

    /// <summary>The survey, or one without readings where none is given; null after the errors were told.</summary>
    internal static Survey? ReadSurvey(SiteLine line, string? named, FindingPrinter printer)
    {
        if (named is not { } file)
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
