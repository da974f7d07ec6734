using System.CommandLine;
using System.Text.Json;
using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Cli.Commands;

/// <summary><c>rootgap measure</c>: how far it is between two places of a line.</summary>
internal static class MeasureCommand
{
    public static Command Create()
    {
        var drawing = new Argument<string>("DRAWING") { Description = "The drawing file (YAML)." };
        var from = new Argument<string>("FROM") { Description = "A joint (W3, B1, or the office's number), a part's work point (C5), a support (PS-2), \"leg 3 of main\" for the end of a leg, or \"start of main\"." };
        var to = new Argument<string>("TO") { Description = "As FROM." };
        var json = JsonOption.Create();
        var command = new Command("measure", "How far it is between two places of a line: along a tight string, and by direction.\n\nExample: rootgap measure samples/hatchery/chilled-supply.yaml W3 \"leg 5 of discharge\"") { drawing, from, to, json };
        command.SetAction(r => Run(r.GetValue(drawing)!, r.GetValue(from)!, r.GetValue(to)!, r.GetValue(json)));
        return command;
    }

    private static int Run(string file, string from, string to, bool asJson)
    {
        if (SiteDrawing.Read(file) is not { } packet)
            return ExitCode.Unreadable;
        var places = MeasuredWay.Places(packet.Fabrication.Route).ToList();
        if (Find(from) is not { } a || Find(to) is not { } b)
            return ExitCode.Unreadable;
        var way = new MeasuredWay(a, b);
        if (!asJson)
        {
            Console.Out.WriteLine(way.Say(packet.Drawing.Units));
            return SiteDrawing.Exit(packet);
        }

        using var json = new Utf8JsonWriter(Console.OpenStandardOutput(), JsonOption.Writing);
        json.WriteStartObject();
        json.WriteString("from", a.Name);
        json.WriteString("to", b.Name);
        foreach (var (name, value) in ((string, double)[])[("straight", way.Straight), ("level", way.Level), ("east", way.East), ("north", way.North), ("up", way.Up)])
            json.WriteNumber(name, Math.Round(value, 3));
        json.WriteEndObject();
        return SiteDrawing.Exit(packet);

        MeasuredPlace? Find(string name)
        {
            var found = places.Find(p => string.Equals(p.Name, name.Trim(), StringComparison.OrdinalIgnoreCase));
            if (found is null)
                Console.Error.WriteLine($"{file}: there is no '{name}'. A place is a joint ({Some('W')}), a work point ({Some('C')}), a support, \"leg 1 of {packet.Drawing.Runs[0].Name}\" or \"start of {packet.Drawing.Runs[0].Name}\".");
            return found;
        }

        string Some(char kind) => places.Where(p => p.Name[0] == kind && p.Name.Length > 1 && char.IsAsciiDigit(p.Name[1])).Select(p => p.Name) is var names && names.Any() ? $"{names.First()} to {names.Last()}" : "none here";
    }
}
