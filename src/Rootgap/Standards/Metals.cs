using System.Collections.Concurrent;
using System.Globalization;

namespace Rootgap.Standards;

/// <summary>What a pipe or fitting is made of, as far as welding procedures group it (ASME BPVC Section IX: P-numbers).</summary>
public static class Metals
{
    private static readonly Lazy<(string Key, double Number)[]> Known = new(() =>
        [.. StandardTable.Rows("metals").Select(r => (Key: Plain(r.Item), Number: r.Figure)).OrderByDescending(r => r.Key.Length).ThenBy(r => r.Key, StringComparer.Ordinal)]);

    /// <summary>Answers given before: a job has few materials, asked for at every weld.</summary>
    private static readonly ConcurrentDictionary<string, double?> Answered = new(StringComparer.Ordinal);

    private const int MostAnswers = 1000;

    /// <summary>The P-number of a material such as <c>A106-B</c> (5.1 stands for 5A, 15.5 for 15E); null where the table does not know it.</summary>
    public static double? PNumber(string material)
    {
        if (material.Length == 0)
            return null;
        if (Answered.TryGetValue(material, out var known))
            return known;
        var number = Search(material);
        if (Answered.Count < MostAnswers)
            Answered[material] = number;
        return number;
    }

    private const double StainlessSteel = 8.0e-6;

    /// <summary>Density of a pipe material, kg/mm³: 8000 kg/m³ for austenitic stainless (ASTM A312, TP3xx; common practice), else carbon steel's.</summary>
    public static double Density(string material) =>
        material.StartsWith("A312", StringComparison.OrdinalIgnoreCase) || material.Contains("TP3", StringComparison.OrdinalIgnoreCase) || material.Contains("F304", StringComparison.OrdinalIgnoreCase) || material.Contains("F316", StringComparison.OrdinalIgnoreCase)
            ? StainlessSteel
            : Pipes.CarbonSteel;

    private static double? Search(string material)
    {
        var plain = Plain(material);
        foreach (var (key, number) in Known.Value)
        {
            if (plain.StartsWith(key, StringComparison.Ordinal) || (plain.Length > 1 && plain[0] == 'S' && plain.AsSpan(1).StartsWith(key, StringComparison.Ordinal)))
                return number;
        }

        return null;
    }

    /// <summary>A P-number as the code writes it.</summary>
    public static string Name(double number) => number switch
    {
        5.1 => "P-No. 5A",
        5.2 => "P-No. 5B",
        9.1 => "P-No. 9A",
        9.2 => "P-No. 9B",
        10.8 => "P-No. 10H",
        15.5 => "P-No. 15E",
        _ => "P-No. " + number.ToString(CultureInfo.InvariantCulture),
    };

    /// <summary>A material's name without what is written one way or another: <c>ASTM A106 Gr.B</c> and <c>A106-B</c> are both A106B.</summary>
    public static string Plain(string material)
    {
        var text = material.ToUpperInvariant().Replace("ASTM", "", StringComparison.Ordinal).Replace("ASME", "", StringComparison.Ordinal).Replace("GRADE", "", StringComparison.Ordinal).Replace("GR.", "", StringComparison.Ordinal).Replace(" GR ", "", StringComparison.Ordinal);
        return string.Concat(text.Where(char.IsAsciiLetterOrDigit));
    }

    /// <summary>Mean expansion of a material near working warmth, per degree C, with its source; that of carbon steel where the table does not know the material.</summary>
    public static (double PerDegree, string Source) ExpansionOf(string material)
    {
        var group = PNumber(material) switch
        {
            5.1 or 5.2 or 15.5 => "5Cr to 9Cr steel",
            8 => "austenitic stainless steel",
            _ => "carbon steel",
        };
        var row = StandardTable.Find("expansion", group, "mean expansion 21 to 38 C", default)!;
        return (row.Figure * 1e-6, row.Source);
    }
}
