using System.Globalization;
using System.Text;
using Rootgap.Drawings;

namespace Rootgap.Cli.Commands;

/// <summary>Files of readings: those that are given, and the record beside the drawing that they are added to.</summary>
internal static class ReadingsFile
{
    private const long Largest = 1 << 20;

    /// <summary>The text of a file of readings, known to the printer; null where it cannot be had, which is told.</summary>
    public static string? Text(string name, FindingPrinter printer)
    {
        if (!File.Exists(name))
        {
            Console.Error.WriteLine($"{name}: there is no such file.");
            return null;
        }

        var (text, bad, kind) = FileText.Of(InputFile.Bytes(name, Largest));
        if (bad.Line > 0)
        {
            Console.Error.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{name}:{bad.Line}:{bad.Column}: the file is {kind}: save it again as UTF-8."));
            return null;
        }

        printer.Know(name, text);
        return text;
    }

    /// <summary>Adds an entry to the record of a joint or a spool beside the drawing. Appended, never overwritten: what is measured again keeps both.</summary>
    public static void Keep(string drawing, string of, string entry)
    {
        var record = Path.Combine(Path.GetDirectoryName(Path.GetFullPath(drawing))!, $"{Path.GetFileNameWithoutExtension(drawing)}.{of}.readings.yaml");
        try
        {
            OutputFile.Append(record, new UTF8Encoding(false).GetBytes(entry));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            Console.Error.WriteLine($"The readings could not be added to {record}: {e.Message} Write them down, or use --no-record.");
        }
    }
}
