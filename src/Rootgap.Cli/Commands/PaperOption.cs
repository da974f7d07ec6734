using System.CommandLine;
using Rootgap.Sheets;

namespace Rootgap.Cli.Commands;

/// <summary><c>--paper</c>: what the printer holds.</summary>
internal static class PaperOption
{
    /// <summary>For packets and templates: the sizes that every office prints.</summary>
    public static Option<string> Create() => Create("A4", "Letter");

    /// <param name="names">The sizes to choose from, the usual one first.</param>
    public static Option<string> Create(params string[] names)
    {
        var option = new Option<string>("--paper") { Description = $"Paper of the sheets: {Or(names)}.", DefaultValueFactory = _ => names[0] };
        option.Validators.Add(result =>
        {
            if (result.Tokens is [var token] && !(Paper.Find(token.Value) is { } paper && names.Contains(paper.Name, StringComparer.Ordinal)))
                result.AddError($"--paper is {Or(names)}, not {token.Value}.");
        });
        return option;
    }

    private static string Or(string[] names) => string.Join(", ", names[..^1]) + " or " + names[^1];

    public static Paper Of(string name) => Paper.Find(name)!;
}
