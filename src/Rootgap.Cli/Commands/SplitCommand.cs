using System.CommandLine;
using System.Text.Json;
using Rootgap.Drawings;
using Rootgap.Site.Splitting;

namespace Rootgap.Cli.Commands;

/// <summary><c>rootgap split</c>: where the field and final-fit welds go so that every spool can be carried and every loop can close.</summary>
internal static class SplitCommand
{
    public static Command Create()
    {
        var drawing = new Argument<string>("DRAWING") { Description = "The drawing file (YAML)." };
        var write = new Option<bool>("--write") { Description = "Put the marks of the plan into the drawing file; comments stay, and the old file is kept beside it." };
        var number = new Option<int>("--plan") { Description = "Which plan is written.", DefaultValueFactory = _ => 1 };
        var free = new Option<bool>("--free") { Description = "Marks that are there already may move." };
        var directions = new Option<string?>("--directions") { Description = "all: final-fit welds take up every direction of the pipes on the way, as a machine's flanges ask for." };
        directions.AcceptOnlyFromAmong("one", "all");
        var pin = new Option<string[]>("--pin") { Description = "A place that must be marked: W7=final-fit, or main/4@1500=field. More than one may be given.", AllowMultipleArgumentsPerToken = true };
        var forbid = new Option<string[]>("--forbid") { Description = "A place that may not be marked: W9. More than one may be given.", AllowMultipleArgumentsPerToken = true };
        var survey = new Option<string?>("--survey") { Description = "A survey file whose `as built` has spools that were measured after welding: they are built, so they are not parted, their marks stay, and their boxes are told as measured and as drawn." };
        var json = JsonOption.Create();
        var command = new Command("split", "Where the line is best split: the cheapest field and final-fit welds for which every spool can be carried and every loop can close; the best three, with reasons. What is marked already stays.\n\nExample: rootgap split samples/hatchery/chilled-supply.yaml --free --directions all")
        {
            drawing, write, number, free, directions, pin, forbid, survey, json,
        };
        command.SetAction(r => Run(r.GetValue(drawing)!, r.GetValue(write), r.GetValue(number), r.GetValue(free), r.GetValue(directions), r.GetValue(pin) ?? [], r.GetValue(forbid) ?? [], r.GetValue(survey), r.GetValue(json)));
        return command;
    }

    private static int Run(string file, bool write, int number, bool free, string? directions, string[] pin, string[] forbid, string? survey, bool asJson)
    {
        var pinned = new Dictionary<string, WeldPlace>(StringComparer.Ordinal);
        foreach (var one in pin)
        {
            if (one.LastIndexOf('=') is var at && (at < 1 || one[(at + 1)..] is not ("field" or "final-fit")))
                return Refuse($"\"{one}\" is not a pin: write W7=field or W7=final-fit.");
            pinned[one[..at]] = one[(at + 1)..] == "field" ? WeldPlace.Field : WeldPlace.FinalFit;
        }

        if (SiteDrawing.Read(file) is not { } packet)
            return ExitCode.Unreadable;
        var asked = new SplitAsked(free, pinned, forbid.ToHashSet(StringComparer.Ordinal));
        if (survey is not null)
        {
            if (CloseCommand.ReadAsBuilt(packet, survey) is not { } built)
                return ExitCode.Unreadable;
            asked = asked with { AsBuilt = built };
        }

        var rules = directions is null ? null : packet.Drawing.Shop.Split with { AllDirections = directions == "all" };
        var split = Split.Of(packet.Fabrication, asked with { Rules = rules });
        if (asJson)
        {
            using var json = new Utf8JsonWriter(Console.OpenStandardOutput(), JsonOption.Writing);
            SplitJson.Write(json, split, packet.Drawing);
        }
        else
        {
            foreach (var line in SplitWords.Of(split, packet.Drawing))
                Console.Out.WriteLine(line);
        }

        if (split.Plans.Count == 0)
            return ExitCode.Stop;
        if (!write)
            return ExitCode.Done;
        return number < 1 || number > split.Plans.Count
            ? Refuse(FormattableString.Invariant($"There is no plan {number}: there are {split.Plans.Count}."))
            : Write(file, packet.Drawing, split.Plans[number - 1], free);
    }

    private static int Write(string file, Drawing drawing, SplitPlan plan, bool free)
    {
        var (text, _) = DrawingFiles.Read(file);
        var made = SplitWriting.Write(DrawingText.Of(text, file), drawing, plan, free);
        if (made.Refusal is { } why)
        {
            Console.Error.WriteLine($"{file}: nothing was written. {why}");
            return ExitCode.Stop;
        }

        if (made.Text == text)
        {
            Console.Error.WriteLine($"{file}: has these marks already; nothing to write.");
            return ExitCode.Done;
        }

        var copy = FileMending.Keep(file, made.Text);
        Console.Error.WriteLine($"{file}: the marks are in; the old file is {copy}");
        return ExitCode.Done;
    }

    private static int Refuse(string message)
    {
        Console.Error.WriteLine(message);
        return ExitCode.Usage;
    }
}
