using System.Globalization;
using System.Text;

namespace Rootgap.Records;

/// <summary>
/// The name of a file of a job: below the job's folder, the same on every system, and never a way out of it.
/// Names that one system reads otherwise than another are refused on all.
/// </summary>
public static class JobPath
{
    /// <summary>Longest name with its folders, characters.</summary>
    public const int Longest = 200;

    /// <summary>Longest name of a file or a folder, bytes of UTF-8. Most file systems take 255 (POSIX, NAME_MAX); a file being written carries a longer name for a moment.</summary>
    public const int LongestPart = 200;

    /// <summary>How the lock files of spreadsheet programs begin: they are there while a list is open, and are no lists.</summary>
    public const string SpreadsheetLock = "~$";

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
            // Unicode, "Combining Diacritical Marks": an accent as a sign of its own. Some systems join it with its letter, others do not, and so take one name for two.
            if (c is >= '\u0300' and <= '\u036f')
                return "A letter and its accent stand in the name as two signs, which some systems make one of; type the letter anew.";
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
            if (LongestPart < Encoding.UTF8.GetByteCount(part))
                return string.Create(CultureInfo.InvariantCulture, $"\"{part}\" is {Encoding.UTF8.GetByteCount(part)} bytes long, and some disks take no more than 255; {LongestPart} are enough.");
            if (part.Length == 0)
                return "A folder in the name has no name: two / follow each other, or it ends with one.";
            if (part is "." or "..")
                return "The name leads out of its folder (. or ..); name the file below the job's folder.";
            if (part[0] == '.')
                return $"{part} is a hidden file or folder; these are not part of a job.";
            if (part.StartsWith(SpreadsheetLock, StringComparison.Ordinal))
                return $"{part} is the lock file of a spreadsheet program; it is no list.";
            if (part[^1] is '.' or ' ' || part[0] == ' ')
                return $"\"{part}\" begins with a blank, or ends with a dot or a blank, which some systems drop; take it out.";
            if (Devices.Contains(part.Split('.')[0].TrimEnd(), StringComparer.OrdinalIgnoreCase))
                return $"{part} is the name of a device on some systems; take another name.";
        }

        // A file is no folder: where x.yaml is one, x.yaml/y.yaml could not be written, and the other way round.
        if (parts.SkipLast(1).FirstOrDefault(p => Endings.Any(e => p.EndsWith(e, StringComparison.OrdinalIgnoreCase))) is { } folder)
            return $"{folder} is the name of a file, and stands here for a folder; call the folder otherwise.";
        if (HasHalfSign(path))
            return "Half of a sign stands in the name; type it anew.";
        return Endings.Any(e => path.EndsWith(e, StringComparison.OrdinalIgnoreCase))
            ? null
            : "Only drawings, lists and racks are kept: names that end with " + string.Join(", ", Endings) + ".";
    }

    private static bool HasHalfSign(string path)
    {
        foreach (var sign in path.EnumerateRunes())
        {
            if (sign == Rune.ReplacementChar)
                return true;
        }

        return false;
    }
}
