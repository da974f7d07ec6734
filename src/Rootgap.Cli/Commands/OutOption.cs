using System.CommandLine;

namespace Rootgap.Cli.Commands;

/// <summary><c>--out</c> and other options that name a file or folder to be written.</summary>
internal static class OutOption
{
    /// <summary>A folder that must be given.</summary>
    public static Option<string> Folder(string says) => Named(new Option<string>("--out") { Description = says, Required = true, HelpName = "DIR" });

    /// <summary>The option, refused where it names nothing.</summary>
    public static Option<T> Named<T>(Option<T> option)
    {
        option.Validators.Add(result =>
        {
            if (result.Tokens is [var token] && (string.IsNullOrWhiteSpace(token.Value) || token.Value.Contains('\0', StringComparison.Ordinal)))
                result.AddError($"{option.Name} needs a name, and none is given.");
        });
        return option;
    }
}
