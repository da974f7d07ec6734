using System.Globalization;

namespace Rootgap.Records;

/// <summary>
/// The name of a file of a job: below the job's folder, the same on every system, and never a way out of it.
/// Names that one system reads otherwise than another are refused on all.
/// </summary>
public static class JobPath
{
    /// <summary>Longest name with its folders, characters.</summary>
    public const int Longest = 200;

    private const int Deepest = 8;

    /// <summary>Endings of drawings, material lists and racks.</summary>
    public static readonly IReadOnlyList<string> Endings = [".yaml", ".yml", ".csv", ".xlsx"];

    // Windows takes these for devices in any folder, with any ending (Microsoft, "Naming Files, Paths, and Namespaces").
    private static readonly string[] Devices =
        ["CON", "PRN", "AUX", "NUL", "CONIN$", "CONOUT$", .. Digits.Select(d => $"COM{d}"), .. Digits.Select(d => $"LPT{d}")];

    private static IEnumerable<char> Digits => "0123456789\u00b9\u00b2\u00b3";

    /// <summary>The path of a file that a drawing names, beside that drawing.</summary>
    public static string Beside(string drawing, string named)
    {
        var parts = drawing.Split('/')[..^1].ToList();
        foreach (var part in named.Replace('\\', '/').Split('/'))
        {
            if (part == ".." && parts.Count > 0)
                parts.RemoveAt(parts.Count - 1);
            else if (part is not ("." or ".." or ""))
                parts.Add(part);
        }

        return string.Join('/', parts);
    }

    /// <summary>What is wrong with a name, and what to do; null where it is good.</summary>
    public static string? WhyNot(string path)
    {
        if (path.Length == 0)
            return "The file has no name.";
        if (Longest < path.Length)
            return string.Create(CultureInfo.InvariantCulture, $"The name is {path.Length} characters long; {Longest} are enough.");
        foreach (var c in path)
        {
            if (c == '\\')
                return "A backslash stands in the name; folders are parted by /.";
            if (c is '<' or '>' or ':' or '"' or '|' or '?' or '*')
                return $"The sign {c} cannot stand in a file's name everywhere; take it out.";
            if (char.GetUnicodeCategory(c) is UnicodeCategory.Control or UnicodeCategory.Format or UnicodeCategory.LineSeparator or UnicodeCategory.ParagraphSeparator or UnicodeCategory.OtherNotAssigned or UnicodeCategory.PrivateUse)
                return "A sign stands in the name that nobody can see; take it out.";
        }

        if (path[0] == '/')
            return "The name begins at the root of a disk; name the file below the job's folder.";
        var parts = path.Split('/');
        if (Deepest < parts.Length)
            return string.Create(CultureInfo.InvariantCulture, $"The file lies {parts.Length} folders deep; {Deepest} are enough.");
        foreach (var part in parts)
        {
            if (part.Length == 0)
                return "A folder in the name has no name: two / follow each other, or it ends with one.";
            if (part is "." or "..")
                return "The name leads out of its folder (. or ..); name the file below the job's folder.";
            if (part[0] == '.')
                return $"{part} is a hidden file or folder; these are not part of a job.";
            if (part[^1] is '.' or ' ' || part[0] == ' ')
                return $"\"{part}\" begins with a blank, or ends with a dot or a blank, which some systems drop; take it out.";
            if (Devices.Contains(part.Split('.')[0].TrimEnd(), StringComparer.OrdinalIgnoreCase))
                return $"{part} is the name of a device on some systems; take another name.";
        }

        return Endings.Any(e => path.EndsWith(e, StringComparison.OrdinalIgnoreCase))
            ? null
            : "Only drawings, lists and racks are kept: names that end with " + string.Join(", ", Endings) + ".";
    }
}
