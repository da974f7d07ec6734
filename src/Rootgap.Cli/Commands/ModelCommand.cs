using System.CommandLine;
using System.Text.Json;
using Rootgap.Fabricating;
using Rootgap.Packets;
using Rootgap.Routes;

namespace Rootgap.Cli.Commands;

/// <summary><c>rootgap model</c>: drawings as glTF models.</summary>
internal static class ModelCommand
{
    public static Command Create()
    {
        var drawings = DrawingArgument.Create();
        var folder = new Option<string>("--out") { Description = "Folder for the models.", Required = true };
        var json = JsonOption.Create();
        var command = new Command("model", "Write each drawing as a glTF 2.0 model (.glb): true size, named parts, coloured by spool.\n\nExample: rootgap model samples/hatchery --out models") { drawings, folder, json };
        command.SetAction(result => Run(result.GetValue(drawings)!, result.GetValue(folder)!, result.GetValue(json)));
        return command;
    }

    private static int Run(string[] names, string folder, bool asJson)
    {
        var files = DrawingFiles.Find(names, out var missing);
        if (DrawingArgument.Refuse(files, missing))
            return ExitCode.Unreadable;
        var exit = ExitCode.Done;
        var written = new List<string>();
        var printer = FindingPrinter.ForConsole(Console.Error, Console.IsErrorRedirected);
        foreach (var (file, text, number, model, errors) in DrawingRun.Each(files, file =>
                 {
                     var (text, reading) = DrawingFiles.Read(file);
                     return (file, text, reading.Drawing?.Number ?? "", reading.Drawing is { } d ? Model.Glb(Spooling.Of(Routing.Of(d))) : null, reading.Errors);
                 }))
        {
            if (model is null)
            {
                printer.Know(file, text);
                printer.Print(errors);
                exit = ExitCode.Unreadable;
                continue;
            }

            Directory.CreateDirectory(folder);
            var path = Path.Combine(folder, string.Concat(number.Select(c => char.IsLetterOrDigit(c) || c is '-' or '.' ? c : '_')) + ".glb");
            File.WriteAllBytes(path, model);
            written.Add(path);
            if (!asJson)
                Console.Out.WriteLine(path);
        }

        if (asJson)
        {
            using var json = new Utf8JsonWriter(Console.OpenStandardOutput(), JsonOption.Writing);
            json.WriteStartObject();
            json.WriteStartArray("models");
            foreach (var path in written)
                json.WriteStringValue(path);
            json.WriteEndArray();
            json.WriteEndObject();
        }

        return exit;
    }
}
