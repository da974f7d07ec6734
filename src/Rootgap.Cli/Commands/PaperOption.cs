using System.CommandLine;
using Rootgap.Sheets;

namespace Rootgap.Cli.Commands;

/// <summary><c>--paper</c>: what the printer holds.</summary>
internal static class PaperOption
{
    public static Option<string> Create()
    {
        var option = new Option<string>("--paper") { Description = "Paper of the sheets: A4 or Letter.", DefaultValueFactory = _ => "A4" };
        option.Validators.Add(result =>
        {
            if (result.Tokens is [var token] && (Paper.Find(token.Value) is not { } paper || paper is not { Name: "A4" or "Letter" }))
                result.AddError($"--paper is A4 or Letter, not {token.Value}.");
        });
        return option;
    }

    public static Paper Of(string name) => Paper.Find(name)!;
}
