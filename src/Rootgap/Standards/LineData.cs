namespace Rootgap.Standards;

/// <summary>What the words of a line list mean (the table <c>line-data</c>): sections of the code, names of fluids, letters at the end of a line number.</summary>
public static class LineData
{
    /// <summary>A section of ASME B31.</summary>
    /// <param name="Name">As it is written: B31.3.</param>
    /// <param name="Title">What it is for, in short.</param>
    /// <param name="DoesNotCarry">Fluids outside its title; empty where it is of all.</param>
    public sealed record CodeSection(string Name, string Title, IReadOnlyCollection<string> DoesNotCarry);

    private static readonly Lazy<Dictionary<string, CodeSection>> Sections = new(() => Rows("section").ToDictionary(
        r => r.Item, r => new CodeSection(r.Item, r.Class, [.. Rows("does not carry").Where(n => n.Item == r.Item).SelectMany(n => n.Class.Split('/'))]), StringComparer.Ordinal));

    private static readonly Lazy<HashSet<string>> Named = new(() => Words("fluid", "names"));

    private static readonly Lazy<HashSet<string>> Freezing = new(() => Words("fluid", "freezes"));

    private static readonly Lazy<HashSet<string>> Antifreeze = new(() => Words("fluid", "keeps from freezing"));

    private static readonly Lazy<HashSet<string>> Gases = new(() => Words("fluid", "is a gas"));

    private static readonly Lazy<HashSet<string>> Setting = new(() => Words("fluid", "sets when cold"));

    private static readonly Lazy<HashSet<string>> Metering = new(() => Words("meter", "names"));

    private static readonly Lazy<Dictionary<string, string>> Ends = new(() => Rows("end of line number").ToDictionary(r => r.Item, r => r.Class, StringComparer.OrdinalIgnoreCase));

    /// <summary>A section of ASME B31 that is in force or was, by its number behind the point: 3; null where there is none.</summary>
    public static CodeSection? Section(string number) => Sections.Value.GetValueOrDefault("B31." + number);

    /// <summary>The fluids that a text names by their own words, in small letters.</summary>
    public static IReadOnlySet<string> FluidsIn(string text) => Split(text).Where(Named.Value.Contains).ToHashSet(StringComparer.Ordinal);

    /// <summary>Whether what a text names freezes as water does.</summary>
    public static bool Freezes(string text) => Split(text) is var words && words.Any(Freezing.Value.Contains) && !words.Any(Antifreeze.Value.Contains);

    /// <summary>Whether what a text names is a gas, and no liquid with it.</summary>
    public static bool IsGas(string text) => Split(text) is var words && words.Any(Gases.Value.Contains) && !words.Contains("liquid") && !text.Contains("gas oil", StringComparison.OrdinalIgnoreCase);

    /// <summary>Whether what a text names turns stiff or solid at the temperature of the air.</summary>
    public static bool SetsWhenCold(string text) => $" {string.Join(' ', Split(text))} " is var words && Setting.Value.Any(w => words.Contains($" {w} ", StringComparison.Ordinal));

    /// <summary>Whether an in-line item is a bellows or a rubber joint, by its words: hollow, soft along the line.</summary>
    public static bool IsBellows(string what) => what.Contains("expansion joint", StringComparison.OrdinalIgnoreCase) || what.Contains("bellows", StringComparison.OrdinalIgnoreCase) || what.Contains("rubber joint", StringComparison.OrdinalIgnoreCase);

    /// <summary>Whether words name something that measures the flow, and reads wrong without straight pipe before it.</summary>
    public static bool IsMeter(string what) => Metering.Value.Any(w => what.Contains(w, StringComparison.OrdinalIgnoreCase)) && !what.Contains("restriction", StringComparison.OrdinalIgnoreCase);

    /// <summary>What the letters behind the last dash of a line number say: hot insulation, cold insulation, tracing, steam tracing, electric tracing; null where they say nothing of these. Offices differ.</summary>
    public static string? EndOf(string lineNumber) => lineNumber.LastIndexOf('-') is > 0 and var dash ? Ends.Value.GetValueOrDefault(lineNumber[(dash + 1)..].Trim()) : null;

    private static IEnumerable<StandardRow> Rows(string attribute) => StandardTable.Rows("line-data").Where(r => r.Attribute == attribute);

    private static HashSet<string> Words(string item, string attribute) => [.. Rows(attribute).Where(r => r.Item == item).SelectMany(r => r.Class.Split('/'))];

    private static string[] Split(string text) => text.ToLowerInvariant().Split([' ', ',', '-', '/', '(', ')'], StringSplitOptions.RemoveEmptyEntries);
}
