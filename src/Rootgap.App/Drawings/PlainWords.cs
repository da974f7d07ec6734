using System.Globalization;
using System.Text.RegularExpressions;

namespace Rootgap.App.Drawings;

/// <summary>What the engine says of a file, in the words of the screen: no key of the file's format, no path of a row.</summary>
public static partial class PlainWords
{
    public static string Of(string said)
    {
        var text = LegPath().Replace(said, m => string.Create(CultureInfo.InvariantCulture, $"leg {int.Parse(m.Groups["leg"].Value, CultureInfo.InvariantCulture) + 1}{(m.Groups["run"].Value == "0" ? "" : $" of run {int.Parse(m.Groups["run"].Value, CultureInfo.InvariantCulture) + 1}")}"));
        text = StartPath().Replace(text, m => m.Groups["run"].Value == "0" ? "the start" : $"the start of run {int.Parse(m.Groups["run"].Value, CultureInfo.InvariantCulture) + 1}");
        text = Key().Replace(text, m => Called(m.Groups["key"].Value.Trim()));
        return text.Replace("`", "", StringComparison.Ordinal).Replace("vector", "skew length", StringComparison.Ordinal);
    }

    /// <summary>What the screen calls a key of the file.</summary>
    public static string Called(string key) => key switch
    {
        "go" => "which way",
        "by" => "how far",
        "to" => "what is there",
        "end" => "weld at the end",
        "begin" => "weld at the beginning",
        "drawing" => "number",
        "shop" => "shop rules file",
        "materials" => "material list file",
        "at" => "place",
        "run" => "name",
        "from" => "from branch",
        "with" => "ties in with",
        _ => key,
    };

    [GeneratedRegex(@"runs\[(?<run>\d+)\]\.legs\[(?<leg>\d+)\]", RegexOptions.CultureInvariant, 1000)]
    private static partial Regex LegPath();

    [GeneratedRegex(@"runs\[(?<run>\d+)\](?:\.start)?", RegexOptions.CultureInvariant, 1000)]
    private static partial Regex StartPath();

    [GeneratedRegex("`(?<key>[a-z][a-z -]*):`", RegexOptions.CultureInvariant, 1000)]
    private static partial Regex Key();
}
