using System.Collections.Concurrent;
using System.Globalization;
using System.Text.RegularExpressions;

namespace Rootgap.Standards;

/// <summary>What a pipe or fitting is made of, as far as welding procedures group it (ASME BPVC Section IX: P-numbers).</summary>
public static partial class Metals
{
    private static readonly Lazy<(string Key, string Group)[]> Welding = new(() => Named("P-number"));

    private static readonly Lazy<(string Key, string Group)[]> Rated = new(() => Named("rating group"));

    /// <summary>Answers given before: a job has few materials, asked for at every weld.</summary>
    private static readonly ConcurrentDictionary<(bool IsRating, string Material), string?> Answered = [];

    private const int MostAnswers = 1000;

    /// <summary>The P-number of a material such as <c>A106-B</c>, as the code writes it: 1, 5A, 9B; null where the table does not know it.</summary>
    public static string? PNumber(string material) => Known(isRating: false, material);

    /// <summary>
    /// The group of ASME B16.5 Table 1A by which a flange of a material is rated: 1.1 for A105, 2.3 for F316L; of a pipe's material that of the flange that goes with it.
    /// Null where the table does not know it.
    /// </summary>
    public static string? RatingGroup(string material) => Known(isRating: true, material);

    private static readonly Lazy<(string Key, string Form)[]> Forms = new(() => [.. StandardTable.Rows("forms").Select(r => (Key: Plain(r.Item), Form: r.Class)).OrderByDescending(r => r.Key.Length)]);

    /// <summary>For what product the specification of a material is, by its title: <c>pipe</c>, <c>fittings</c>, <c>forgings</c>, <c>castings</c>, <c>plate</c>, <c>bars</c>, <c>bolting</c>; null where the table <c>forms</c> does not know it.</summary>
    public static string? FormOf(string material)
    {
        var plain = Plain(material);
        return Array.Find(Forms.Value, f => Begins(plain.AsSpan(), f.Key) || (plain.Length > 1 && plain[0] == 'S' && Begins(plain.AsSpan(1), f.Key))).Form;

        // A53 is not A530.
        static bool Begins(ReadOnlySpan<char> text, string key) => text.StartsWith(key, StringComparison.Ordinal) && (text.Length == key.Length || !char.IsAsciiDigit(text[key.Length]));
    }

    private static readonly Lazy<(string Key, double Celsius)[]> Coldest = new(() => [.. StandardTable.Rows("metals").Where(r => r.Attribute == "coldest").Select(r => (Key: Plain(r.Item), Celsius: r.Figure)).OrderByDescending(r => r.Key.Length)]);

    /// <summary>
    /// How cold a carbon or low-alloy steel may be without an impact test, C (ASME B31.3 Table A-1 and 323.2.2); null for what does not turn brittle there, as austenitic
    /// stainless, and for what the table does not know.
    /// </summary>
    public static double? ColdestOf(string material)
    {
        if (PNumber(material) is not ("1" or "3" or "4" or "5A" or "5B" or "15E" or "9A" or "9B" or "11A"))
            return null;
        var plain = Plain(material);
        var made = Coldest.Value.FirstOrDefault(r => plain.StartsWith(r.Key, StringComparison.Ordinal) || (plain[0] == 'S' && plain.AsSpan(1).StartsWith(r.Key, StringComparison.Ordinal)));
        return made.Key is null ? StandardTable.Find("metals", "carbon and low-alloy steel", "coldest", default)!.Figure : made.Celsius;
    }

    /// <summary>Whether a carbon or low-alloy steel is one that is made for the cold, as A333 and A350-LF2 are.</summary>
    public static bool IsMadeForCold(string material) => ColdestOf(material) is { } coldest && coldest < StandardTable.Find("metals", "carbon and low-alloy steel", "coldest", default)!.Figure;

    /// <summary>Above what temperature a metal is not used without the engineer's word, C (ASME B31.3 Table A-1); null where the table does not know it.</summary>
    public static double? HottestOf(string material) => PNumber(material) is { } number ? StandardTable.Find("metals", $"P-No. {number}", "hottest", default)?.Figure : null;

    private static string? Known(bool isRating, string material)
    {
        if (material.Length == 0)
            return null;
        if (Answered.TryGetValue((isRating, material), out var known))
            return known;
        var group = Search((isRating ? Rated : Welding).Value, material);
        if (Answered.Count < MostAnswers)
            Answered[(isRating, material)] = group;
        return group;
    }

    private static (string Key, string Group)[] Named(string attribute) =>
        [.. StandardTable.Rows("metals").Where(r => r.Attribute == attribute).Select(r => (Key: Plain(r.Item), Group: r.Class)).OrderByDescending(r => r.Key.Length).ThenBy(r => r.Key, StringComparer.Ordinal)];

    private const double StainlessSteel = 8.0e-6;

    /// <summary>Density of a pipe material, kg/mm³: 8000 kg/m³ for austenitic stainless (ASTM A312, TP3xx; common practice), else carbon steel's.</summary>
    public static double Density(string material) =>
        material.StartsWith("A312", StringComparison.OrdinalIgnoreCase) || material.Contains("TP3", StringComparison.OrdinalIgnoreCase) || material.Contains("F304", StringComparison.OrdinalIgnoreCase) || material.Contains("F316", StringComparison.OrdinalIgnoreCase)
            ? StainlessSteel
            : Pipes.CarbonSteel;

    private static string? Search((string Key, string Group)[] named, string material)
    {
        var plain = Plain(material);
        foreach (var (key, group) in named)
        {
            if (plain.StartsWith(key, StringComparison.Ordinal) || (plain.Length > 1 && plain[0] == 'S' && plain.AsSpan(1).StartsWith(key, StringComparison.Ordinal)))
                return group;
        }

        return null;
    }

    /// <summary>A material's name without what is written one way or another: <c>ASTM A106 Gr.B</c> and <c>A106-B</c> are both A106B.</summary>
    public static string Plain(string material)
    {
        var text = material.ToUpperInvariant().Replace("ASTM", "", StringComparison.Ordinal).Replace("ASME", "", StringComparison.Ordinal).Replace("UNS", "", StringComparison.Ordinal).Replace("GRADE", "", StringComparison.Ordinal).Replace("GR.", "", StringComparison.Ordinal).Replace(" GR ", "", StringComparison.Ordinal);
        return string.Concat(text.Where(char.IsAsciiLetterOrDigit));
    }

    /// <summary>The materials that a marking names: of dual-marked <c>A312-TP316/316L</c> both, <c>A312-TP316</c> and <c>A312-TP316L</c>.</summary>
    public static IEnumerable<string> Marked(string material)
    {
        var parts = material.Split('/', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        if (parts.Length == 0)
            yield break;
        var first = parts[0];
        yield return first;
        foreach (var part in parts.Skip(1))
            yield return part.Length > 1 && first.LastIndexOf(part[..2], StringComparison.OrdinalIgnoreCase) is > 0 and var at ? first[..at] + part : part;
    }

    /// <summary>
    /// The alloy that a stainless or chrome steel's grade names, by the number that its forms share: 316L of <c>A312-TP316L</c>, <c>A403-WP316L</c> and <c>A182-F316L</c>, 11 of <c>A335-P11</c>
    /// and <c>A234-WP11</c> (ASTM's way of naming them). Null where the grade names none.
    /// </summary>
    public static string? Alloy(string material) => Numbered().Match(Plain(material)) is { Success: true } match ? match.Groups["alloy"].Value : null;

    [GeneratedRegex("^S?A\\d{3}(?:TP|WP|CP|CR|F|P)(?<alloy>\\d{1,3}[LH]?)(?![0-9])", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 1000)]
    private static partial Regex Numbered();

    /// <summary>Mean expansion of a material near working warmth, per degree C, with its source; that of carbon steel where the table does not know the material.</summary>
    public static (double PerDegree, string Source) ExpansionOf(string material)
    {
        var group = PNumber(material) switch
        {
            "5A" or "5B" or "15E" => "5Cr to 9Cr steel",
            "8" => "austenitic stainless steel",
            _ => "carbon steel",
        };
        var row = StandardTable.Find("expansion", group, "mean expansion 21 to 38 C", default)!;
        return (row.Figure * 1e-6, row.Source);
    }
}
