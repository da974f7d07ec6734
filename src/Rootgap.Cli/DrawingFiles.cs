using System.Text;
using Rootgap.Drawings;

namespace Rootgap.Cli;

/// <summary>Finds drawing files and reads them with what lies beside them.</summary>
internal static class DrawingFiles
{
    private const long Largest = 16 << 20;

    /// <summary>The drawing files that are meant: files as named; of a folder, every YAML file below it that is a drawing, in order of name.</summary>
    /// <param name="missing">Names that lead to nothing.</param>
    public static List<string> Find(IEnumerable<string> names, out List<string> missing)
    {
        var files = new List<string>();
        missing = [];
        foreach (var name in names)
        {
            if (File.Exists(name))
                files.Add(name);
            else if (Directory.Exists(name))
                files.AddRange(Directory.EnumerateFiles(name, "*.y*ml", SearchOption.AllDirectories).Where(IsDrawing).Order(StringComparer.Ordinal));
            else
                missing.Add(name);
        }

        return files;
    }

    /// <summary>Reads one drawing; a file that cannot be opened is an error like any other.</summary>
    public static (string Text, DrawingReading Reading) Read(string file)
    {
        try
        {
            if (new FileInfo(file).Length > Largest)
                return ("", Error(file, "The file is larger than 16 MB: this is no drawing.", "Is this the right file?"));
            var text = File.ReadAllText(file, Encoding.UTF8);
            var folder = Path.GetDirectoryName(Path.GetFullPath(file))!;
            return (text, DrawingReader.Read(text, file, beside => Beside(folder, beside)));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return ("", Error(file, $"The file cannot be read: {e.Message}", "Look at its name and its permissions."));
        }
    }

    /// <summary>The text of a file beside a drawing; null where it cannot be read.</summary>
    public static string? TextBeside(string drawing, string name) =>
        Beside(Path.GetDirectoryName(Path.GetFullPath(drawing))!, name) is { } bytes ? Encoding.UTF8.GetString(bytes).TrimStart('\uFEFF') : null;

    /// <summary>The bytes of a file beside another one; null where it cannot be read.</summary>
    public static byte[]? BytesBeside(string file, string name) => Beside(Path.GetDirectoryName(Path.GetFullPath(file))!, name);

    private static DrawingReading Error(string file, string message, string remedy) =>
        new(null, [new("file-not-found", Findings.Severity.Stop, "", new(file, 0, 0, 0), message, remedy)]);

    private static byte[]? Beside(string folder, string name)
    {
        try
        {
            var path = Path.Combine(folder, name);
            return File.Exists(path) && new FileInfo(path).Length <= Largest ? File.ReadAllBytes(path) : null;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            return null;
        }
    }

    /// <summary>Whether a YAML file in a folder has the key <c>drawing</c> at its top: shop and material files lie beside.</summary>
    private static bool IsDrawing(string file)
    {
        foreach (var line in File.ReadLines(file).Take(200))
        {
            if (line.StartsWith("drawing:", StringComparison.Ordinal))
                return true;
        }

        return false;
    }
}
