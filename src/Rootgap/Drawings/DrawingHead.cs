using System.Text.RegularExpressions;

namespace Rootgap.Drawings;

/// <summary>Number and revision as they stand at the top of a drawing file, found without reading the rest.</summary>
/// <param name="Number">Empty where the text has none, or is no drawing: a survey or readings of a drawing bear its number, and have no runs.</param>
/// <param name="Revision">Empty where the drawing gives none.</param>
public readonly partial record struct DrawingHead(string Number, string Revision)
{
    /// <summary>Whether a file is a survey: it names the drawing that it was taken of, and is none itself.</summary>
    public static bool IsOfSurvey(string text) => text.StartsWith("survey:", StringComparison.Ordinal) || text.Contains("\nsurvey:", StringComparison.Ordinal);

    public static DrawingHead Of(string text)
    {
        if (IsOfSurvey(text) || !RunsLine().IsMatch(text))
            return new("", "");
        return new(Value(NumberLine().Match(text)), Value(RevisionLine().Match(text)));
    }

    private static string Value(Match match) => match.Success ? match.Groups["value"].Value.Trim() switch
    {
        ['\'', .. var quoted, '\''] => quoted.Replace("''", "'", StringComparison.Ordinal),
        ['"', .. var quoted, '"'] => quoted.Replace("\\\"", "\"", StringComparison.Ordinal).Replace(@"\\", @"\", StringComparison.Ordinal),
        var plain => plain,
    } : "";

    /// <summary>The title as it stands at the top of a drawing file, found without reading the rest; empty where there is none.</summary>
    public static string TitleOf(string text) => Value(TitleLine().Match(text));

    [GeneratedRegex(@"^title:[ \t]*(?<value>""(?:[^""\\\r\n]|\\.)*""|'(?:[^'\r\n]|'')*'|[^#\r\n]*)", RegexOptions.Multiline | RegexOptions.CultureInvariant, 1000)]
    private static partial Regex TitleLine();

    [GeneratedRegex(@"^drawing:[ \t]*(?<value>""(?:[^""\\\r\n]|\\.)*""|'(?:[^'\r\n]|'')*'|[^#\r\n]*)", RegexOptions.Multiline | RegexOptions.CultureInvariant, 1000)]
    private static partial Regex NumberLine();

    [GeneratedRegex(@"^runs:", RegexOptions.Multiline | RegexOptions.CultureInvariant, 1000)]
    private static partial Regex RunsLine();

    [GeneratedRegex(@"^revision:[ \t]*(?<value>""(?:[^""\\\r\n]|\\.)*""|'(?:[^'\r\n]|'')*'|[^#\r\n]*)", RegexOptions.Multiline | RegexOptions.CultureInvariant, 1000)]
    private static partial Regex RevisionLine();
}
