using System.CommandLine;
using System.Text.Json;
using Rootgap.Findings;
using Rootgap.Packets;

namespace Rootgap.Cli.Commands;

/// <summary><c>rootgap model</c>: drawings as glTF models.</summary>
internal static class ModelCommand
{
    public static Command Create()
    {
        var drawings = DrawingArgument.Create();
        var folder = OutOption.Folder("Folder for the models.");
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
        List<string> written = [], notForFabrication = [];
        var printer = FindingPrinter.ForConsole(Console.Error, Console.IsErrorRedirected);
        using var output = new OutputFolder(folder);
        foreach (var (drawing, model, faults) in DrawingRun.Each(files, Work))
        {
            printer.Know(drawing.File, drawing.Text);
            exit = Math.Max(exit, faults.Count > 0 ? Math.Max(ExitCode.Stop, drawing.ExitOfMaking) : drawing.ExitOfMaking);
            if (drawing.Packet is null)
                printer.Print(drawing.Findings);
            printer.Print(faults);
            if (model is null)
                continue;
            var name = output.Free(drawing.Packet!.Drawing.Number, ".glb");
            output.Write(name, model);
            var path = output.PathOf(name);
            written.Add(path);
            if (!drawing.Packet.IsBuildable)
                notForFabrication.Add(path);
            if (!asJson)
                Console.Out.WriteLine(drawing.Packet.IsBuildable ? path : $"{path}: NOT FOR FABRICATION: {FindingPrinter.Summary(drawing.Packet.Findings)}; say `rootgap check` for what is wrong");
        }

        output.Commit();
        if (asJson)
            Print(written, notForFabrication);
        return exit;
    }

    /// <summary>A drawing and its model; parts that are not in it, and whatever else the program failed over, as findings.</summary>
    private static (OpenedDrawing Drawing, byte[]? Model, IReadOnlyList<Finding> Faults) Work(DrawingFile file)
    {
        var opened = DrawingFiles.Open(file);
        if (opened.Packet is not { } packet)
            return (opened, null, []);
        try
        {
            var model = Model.Glb(packet.Fabrication, packet.IsBuildable, out var missing);
            // Where the drawing can't be built, a part without a shape is the drawing's doing: the desk check tells why.
            return (opened, model, missing.Count == 0 || !packet.IsBuildable ? [] : [Fault($"The model has no {string.Join(", ", missing)}", "it has no shape")]);
        }
        catch (Exception e) when (ProgramFault.IsOne(e))
        {
            return (opened, null, [Fault("The model of this drawing could not be made", ProgramFault.Words(e))]);
        }

        Finding Fault(string what, string words) => ProgramFault.Of(what, words, "The other drawings are not touched by this.", where: new(file, 0, 0, 0));
    }

    private static void Print(List<string> written, List<string> notForFabrication)
    {
        using var json = new Utf8JsonWriter(Console.OpenStandardOutput(), JsonOption.Writing);
        json.WriteStartObject();
        Paths("models", written);
        if (notForFabrication.Count > 0)
            Paths("not for fabrication", notForFabrication);
        json.WriteEndObject();

        void Paths(string name, List<string> paths)
        {
            json.WriteStartArray(name);
            foreach (var path in paths)
                json.WriteStringValue(path);
            json.WriteEndArray();
        }
    }
}
