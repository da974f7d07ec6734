using System.CommandLine;
using System.Text.Json;
using Rootgap.Measure;
using Rootgap.Packets;
using Rootgap.Site.Forecasting;
using Rootgap.Site;

namespace Rootgap.Cli.Commands;

/// <summary><c>rootgap forecast</c>: how much a line may be out before any steel is cut, how much extra pipe that asks for, and which joints matter.</summary>
internal static class ForecastCommand
{
    public static Command Create()
    {
        var drawing = new Argument<string>("DRAWING") { Description = "The drawing file (YAML)." };
        var spools = new Option<string>("--spools") { Description = "checked: each spool has passed its final check. \"as welded\": nothing was checked, and what the check is worth is told.", DefaultValueFactory = _ => "checked" };
        spools.AcceptOnlyFromAmong("checked", "as welded");
        var draws = new Option<int>("--draws") { Description = "Lines drawn by chance, beside the first-order figures.", DefaultValueFactory = _ => 10_000 };
        draws.Validators.Add(r =>
        {
            if (r.GetValueOrDefault<int>() is < 100 or > 1_000_000)
                r.AddError("--draws is a number from 100 to 1000000.");
        });
        var seed = new Option<int>("--seed") { Description = "The same seed draws the same lines.", DefaultValueFactory = _ => 1 };
        var survey = new Option<string?>("--survey") { Description = "A survey file whose `as built` has spools that were measured after welding: they are reckoned as they are, and the figures of the drawing are told too." };
        var json = JsonOption.Create();
        var command = new Command("forecast", "How much a line may be out before any steel is cut: by direction, against what takes it up; extra pipe needed; what matters most; the chance to close.\n\nExample: rootgap forecast samples/hatchery/chilled-supply.yaml --spools \"as welded\"")
        {
            drawing, spools, draws, seed, survey, json,
        };
        command.SetAction(r => Run(r.GetValue(drawing)!, new(r.GetValue(spools) == "as welded", r.GetValue(draws), r.GetValue(seed)), r.GetValue(survey), r.GetValue(json)));
        return command;
    }

    private static int Run(string file, ForecastAsked asked, string? survey, bool asJson)
    {
        if (SiteDrawing.Read(file) is not { } packet)
            return ExitCode.Unreadable;
        if (survey is not null)
        {
            if (CloseCommand.ReadAsBuilt(packet, survey) is not { } built)
                return ExitCode.Unreadable;
            asked = asked with { AsBuilt = built };
        }

        var forecast = Forecast.Of(packet.Fabrication, asked);
        if (asJson)
        {
            using var json = new Utf8JsonWriter(Console.OpenStandardOutput(), JsonOption.Writing);
            ForecastJson.Write(json, forecast, packet.Drawing.Units);
            return SiteDrawing.Exit(packet);
        }

        Console.Out.WriteLine(FormattableString.Invariant($"{packet.Drawing.Number}: forecast, {(asked.AsWelded ? "nothing checked in the shop" : "each spool checked")}; {asked.Draws} lines drawn, seed {asked.Seed}{(packet.Drawing.Units == Units.Inches ? "" : "; mm")}"));
        foreach (var line in new ForecastWords(packet.Drawing.Units).Of(forecast))
            Console.Out.WriteLine(line);
        if (asked.AsWelded)
            Worth(packet, forecast, asked);
        return SiteDrawing.Exit(packet);
    }

    /// <summary>What the final check of the spools is worth, weld by weld.</summary>
    private static void Worth(Packet packet, Forecast asWelded, ForecastAsked asked)
    {
        var whenChecked = Forecast.Of(packet.Fabrication, asked with { AsWelded = false });
        foreach (var (before, after) in asWelded.Closings.Zip(whenChecked.Closings))
        {
            Console.Out.WriteLine(LengthText.Say(packet.Drawing.Units,
                $"what the check is worth at {before.Opening.Joint.Id}: closes {100 * before.Closes:0.#} of 100 without it, {100 * after.Closes:0.#} with it; extra {before.ExtraNeeded:len} without, {after.ExtraNeeded:len} with"));
        }
    }
}

/// <summary>The one drawing that a site command works on.</summary>
internal static class SiteDrawing
{
    /// <summary>Reads it and makes its packet; null after the errors were told.</summary>
    public static Packet? Read(string file)
    {
        var printer = FindingPrinter.ForConsole(Console.Error, Console.IsErrorRedirected);
        var opened = DrawingFiles.Open(file);
        printer.Know(file, opened.Text);
        if (opened.Packet is null)
            printer.Print(opened.Findings);
        else if (!opened.Packet.IsBuildable)
            Console.Error.WriteLine($"{file}: NOT FOR FABRICATION: {FindingPrinter.Summary(opened.Packet.Findings)}; say `rootgap check` for what is wrong");
        return opened.Packet;
    }

    /// <summary>What the drawing alone makes of the exit code: its warnings are the desk check's.</summary>
    public static int Exit(Packet packet) => packet.IsBuildable ? ExitCode.Done : ExitCode.Stop;
}
