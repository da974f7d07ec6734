using System.CommandLine;
using System.Text.Json;
using Rootgap.Packets;

namespace Rootgap.Cli.Commands;

/// <summary>The drawings that a command works on: files or folders.</summary>
internal static class DrawingArgument
{
    public static Argument<string[]> Create()
    {
        var argument = new Argument<string[]>("DRAWING")
        {
            Description = "Drawing files (YAML), or folders with drawing files.",
            Arity = ArgumentArity.OneOrMore,
        };
        // A mistyped option is not taken for a file's name.
        argument.Validators.Add(result =>
        {
            foreach (var token in result.Tokens)
            {
                if (token.Value.StartsWith('-') && !File.Exists(token.Value))
                    result.AddError($"There is no option '{token.Value}'.");
            }
        });
        return argument;
    }

    /// <summary>Says what is not there; true where there is nothing to work on.</summary>
    public static bool Refuse(List<DrawingFile> files, List<string> missing)
    {
        foreach (var name in missing)
            Console.Error.WriteLine($"{name}: there is no such file or folder.");
        if (missing.Count == 0 && files.Count == 0)
            Console.Error.WriteLine("No drawing file was found there. A drawing file is YAML and has the key `drawing:` at its top.");
        return missing.Count > 0 || files.Count == 0;
    }
}

/// <summary><c>--json</c>: the result as JSON on standard output, and nothing else there.</summary>
internal static class JsonOption
{
    public static JsonWriterOptions Writing => PacketJson.Writing;

    public static Option<bool> Create() => new("--json") { Description = "Print the result as JSON on standard output and nothing else there." };
}
