using System.CommandLine;
using System.Globalization;
using System.Text.Json;
using Rootgap.Measure;
using Rootgap.Packets;
using Rootgap.Sheets;
using Rootgap.Site;
using Rootgap.Site.Closing;
using Rootgap.Site.Erection;

namespace Rootgap.Cli.Commands;

/// <summary><c>rootgap site</c>: in which order a line goes up, what stands hold it, what is read, as sheets; a foreman's own order is checked.</summary>
internal static class SiteCommand
{
    public static Command Create()
    {
        var drawings = DrawingArgument.Create();
        var folder = OutOption.Named(new Option<string?>("--out") { Description = "Folder for the site sheets.", HelpName = "DIR" });
        var order = new Option<string?>("--order") { Description = "The foreman's own order, checked: \"spool 1, spool 3, spool 2, W15\". One drawing only." };
        var survey = new Option<string?>("--survey") { Description = "What was measured: the closing sheets are put behind, in place of the blank survey sheets. One drawing only." };
        var paper = PaperOption.Create("A4", "A3", "Letter", "Tabloid");
        var json = JsonOption.Create();
        var command = new Command("site", "The order of erection with one card a step, stands and levels, lifting centres, joints and how they are reached, as sheets.\n\nExample: rootgap site samples/hatchery/chilled-supply.yaml --out site --order \"1, 2, 3, 4, 5, W15, 6, 7, W21\"") { drawings, folder, order, survey, paper, json };
        command.SetAction(r => Run(r.GetValue(drawings)!, r.GetValue(folder), r.GetValue(order), r.GetValue(survey), PaperOption.Of(r.GetValue(paper)!), r.GetValue(json)));
        return command;
    }

    private static int Run(string[] names, string? folder, string? order, string? survey, Paper paper, bool asJson)
    {
        var files = DrawingFiles.Find(names, out var missing);
        if (DrawingArgument.Refuse(files, missing))
            return ExitCode.Unreadable;
        if ((order ?? survey) is not null && files.Count != 1)
        {
            Console.Error.WriteLine($"{(order is null ? "A survey" : "An order")} is of one line: name one drawing with {(order is null ? "--survey" : "--order")}.");
            return ExitCode.Usage;
        }

        var exit = ExitCode.Done;
        LineClosing? closing = null;
        var done = new List<(Packet Packet, SiteLine Line, IReadOnlyList<ErectionStep> Steps, IReadOnlyList<string> Wrong)>();
        foreach (var file in files)
        {
            if (SiteDrawing.Read(file) is not { } packet)
            {
                exit = ExitCode.Unreadable;
                continue;
            }

            var line = SiteLine.Of(packet.Fabrication);
            var (steps, wrong) = order is null
                ? (ErectionOrder.Of(line), [])
                : ErectionOrder.Checked(line, order.Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries));
            if (survey is not null)
            {
                var printer = FindingPrinter.ForConsole(Console.Error, Console.IsErrorRedirected);
                if (CloseCommand.ReadSurvey(line, survey, printer) is not { } read)
                    return ExitCode.Unreadable;
                (closing, var errors) = LineClosing.Of(line, read);
                if (closing is null)
                {
                    printer.Print(errors);
                    return ExitCode.Unreadable;
                }
            }

            exit = Math.Max(exit, Math.Max(SiteDrawing.Exit(packet), wrong.Count > 0 ? ExitCode.Warn : ExitCode.Done));
            done.Add((packet, line, steps, wrong));
        }

        if (asJson)
            Print(done.Select(d => (d.Packet.Drawing.Number, d.Steps, d.Wrong)));
        else
            Tell(done.Select(d => (d.Packet.Drawing.Number, d.Packet.Drawing.Units, d.Steps, d.Wrong)));
        if (folder is not null && done.Count > 0)
            Write(folder, done.Select(d => (d.Packet.Drawing.Number, Pages(d.Packet.ToJob(paper), d.Line, d.Steps, d.Wrong, closing))));
        return exit;
    }

    /// <summary>Order and cards, then what is measured for the final fits: blank, or with what was found.</summary>
    private static IReadOnlyList<Page> Pages(ShopJob job, SiteLine line, IReadOnlyList<ErectionStep> steps, IReadOnlyList<string> wrong, LineClosing? closing) =>
        [.. ErectionPages.Of(job, line, steps, wrong), .. closing is null ? SurveySheets.Of(job, line, new()) : ClosingSheets.Of(job, closing, new ClosingWords(job.Drawing.Units).Say(closing))];

    private static void Write(string folder, IEnumerable<(string Number, IReadOnlyList<Page> Pages)> lines)
    {
        using var output = new OutputFolder(folder);
        var written = new List<string>();
        foreach (var (number, pages) in lines)
        {
            var name = string.Concat(number.Select(c => char.IsAsciiLetterOrDigit(c) || c is '-' or '_' or '.' ? c : '_')) + "-site";
            var file = name + ".pdf";
            for (var i = 2; written.Contains(file); i++)
                file = string.Create(CultureInfo.InvariantCulture, $"{name}-{i}.pdf");
            written.Add(file);
            using var stream = output.Create(file);
            new Booklet(number, pages).WritePdf(stream);
        }

        output.Commit();
        Console.Error.WriteLine($"The site sheets are in {folder}: {string.Join(", ", written)}");
    }

    private static void Tell(IEnumerable<(string Number, Units Units, IReadOnlyList<ErectionStep> Steps, IReadOnlyList<string> Wrong)> lines)
    {
        foreach (var (number, units, steps, wrong) in lines)
        {
            Console.Out.WriteLine(number);
            foreach (var step in steps)
            {
                var what = step.Body is { } body
                    ? LengthText.Say(units, $"{body.Name}, {body.Mass:kg1}{(body.Unweighed.Count > 0 ? " and what nobody weighed" : "")}: {(step.Joints.Count == 0 ? step.Stands is [] ? "on its supports" : "on stands of its own" : string.Join(", ", step.Joints.Select(j => j.Id)))}")
                    : step.Closes is { } closes ? $"{closes.Id}, final fit: survey, cut, weld"
                    : $"supports: {string.Join(", ", step.Sets.Select(s => s.Tag))}";
                var stands = step.Body is null ? "" : step.Stands switch
                {
                    null => "; stays in the sling till it is joined",
                    [] => "",
                    var some => "; stands: " + string.Join(", ", some.Select(s => LengthText.Say(units, $"{s.Piece} at {s.Along:len0}, EL {s.Underside:el0}"))),
                };
                Console.Out.WriteLine(FormattableString.Invariant($"  {step.Number}. {what}{stands}{(step.Body is not null && step.Way is null ? "; CLOSED OFF by what stands" : "")}"));
            }

            foreach (var line in wrong)
                Console.Out.WriteLine("  wrong: " + line);
        }
    }

    private static void Print(IEnumerable<(string Number, IReadOnlyList<ErectionStep> Steps, IReadOnlyList<string> Wrong)> lines)
    {
        using var json = new Utf8JsonWriter(Console.OpenStandardOutput(), JsonOption.Writing);
        json.WriteStartObject();
        json.WriteStartArray("lines");
        foreach (var (number, steps, wrong) in lines)
            ErectionJson.Write(json, number, steps, wrong);
        json.WriteEndArray();
        json.WriteEndObject();
    }
}
