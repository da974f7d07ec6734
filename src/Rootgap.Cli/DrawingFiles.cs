using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Packets;

namespace Rootgap.Cli;

/// <summary>A drawing file, read and worked out.</summary>
/// <param name="Packet">Null where it could not be read, or the program failed over it.</param>
/// <param name="Findings">What the desk check found, or what is wrong with the file.</param>
internal sealed record OpenedDrawing(string File, string Text, Packet? Packet, IReadOnlyList<Finding> Findings)
{
    /// <summary>What this drawing alone makes of the exit code. A drawing over which the program fails can't be built from what it gives.</summary>
    public int Exit => Packet is { } packet ? ExitCode.Of(packet) : IsFault ? ExitCode.Stop : ExitCode.Unreadable;

    /// <summary>The same for a command that makes something of the drawing and leaves its warnings to the desk check.</summary>
    public int ExitOfMaking => Exit == ExitCode.Warn ? ExitCode.Done : Exit;

    /// <summary>Whether the program failed, and not the file.</summary>
    public bool IsFault => Packet is null && Findings is [{ Rule: ProgramFault.Rule }];

    /// <summary>Why nothing is made of it, in the words of a list.</summary>
    public string WhyNot => IsFault ? "the program failed over it" : Findings.Count == 1 ? "cannot be read: 1 error" : $"cannot be read: {Findings.Count} errors";
}

/// <summary>A drawing file that is meant.</summary>
/// <param name="Name">As it is told to people.</param>
/// <param name="Job">The job's folder: the one that was named, or the drawing's own. What a drawing speaks of lies in it.</param>
internal readonly record struct DrawingFile(string Name, string Job)
{
    /// <summary>Other files among those that are meant which are the same drawing in the same revision.</summary>
    public IReadOnlyList<string> AlsoIn { get; init; } = [];

    public static implicit operator DrawingFile(string name) => new(name, Path.GetDirectoryName(Path.GetFullPath(name))!);

    public static implicit operator string(DrawingFile file) => file.Name;

    public override string ToString() => Name;
}

/// <summary>Finds drawing files and reads them with what lies beside them.</summary>
internal static class DrawingFiles
{
    private const long Largest = 16 << 20;

    private static readonly EnumerationOptions Below = new() { RecurseSubdirectories = true, IgnoreInaccessible = true, AttributesToSkip = FileAttributes.None, MatchType = MatchType.Win32 };

    /// <summary>The drawing files that are meant: files as named; of a folder, every YAML file below it that is a drawing, in order of name.</summary>
    /// <param name="missing">Names that lead to nothing.</param>
    public static List<DrawingFile> Find(IEnumerable<string> names, out List<string> missing)
    {
        var files = new List<DrawingFile>();
        missing = [];
        foreach (var name in names)
        {
            if (File.Exists(name))
                files.Add(name);
            else if (Directory.Exists(name))
                files.AddRange(Directory.EnumerateFiles(name, "*.y*ml", Below).Where(IsDrawing).Order(StringComparer.Ordinal).Select(f => new DrawingFile(f, Path.GetFullPath(name))));
            else
                missing.Add(name);
        }

        if (files.Count < 2)
            return files;
        var heads = files.Select(f => (File: f, Head: HeadOf(f.Name))).ToList();
        var same = heads.ToLookup(h => h.Head, h => h.File.Name);
        return [.. heads.Select(h => h.Head.Number.Length > 0
            ? h.File with { AlsoIn = [.. same[h.Head].Where(o => Path.GetFullPath(o) != Path.GetFullPath(h.File.Name)).Distinct(StringComparer.Ordinal)] }
            : h.File)];
    }

    /// <summary>Reads one drawing and works it out. Nothing that is wrong with it, and no fault of ours over it, is thrown.</summary>
    public static OpenedDrawing Open(DrawingFile file)
    {
        var (text, reading) = Read(file);
        if (reading.Drawing is not { } drawing)
            return new(file, text, null, reading.Errors);
        var packet = Packet.TryOf(drawing, out var fault);
        return new(file, text, packet, packet?.Findings ?? [fault! with { Where = fault.Where with { File = file } }]);
    }

    /// <summary>Reads one drawing; a file that cannot be opened is an error like any other.</summary>
    public static (string Text, DrawingReading Reading) Read(DrawingFile file)
    {
        try
        {
            var bytes = InputFile.Bytes(file, Largest);
            var reading = DrawingReader.Read(bytes, file, beside => InputFile.Beside(file, beside, Largest), out var text);
            return (text, reading.Drawing is { } drawing && file.AlsoIn.Count > 0 ? reading with { Drawing = drawing with { AlsoIn = file.AlsoIn } } : reading);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return ("", new(null, [new("file-not-found", Severity.Stop, "", new(file, 0, 0, 0), $"The file cannot be read: {e.Message}", "Look at its name, its size and its permissions.")]));
        }
        catch (Exception e) when (ProgramFault.IsOne(e))
        {
            return ("", new(null, [ProgramFault.Of("The file could not be read", ProgramFault.Words(e), "Nothing is made from it; the other drawings are not touched by this.", where: new(file, 0, 0, 0))]));
        }
    }

    /// <summary>The text of a file beside a drawing; null where it cannot be read.</summary>
    public static string? TextBeside(DrawingFile drawing, string name) =>
        InputFile.Beside(drawing, name, Largest) is { } bytes ? FileText.Of(bytes).Text : null;

    private static DrawingHead HeadOf(string file)
    {
        try
        {
            return DrawingHead.Of(FileText.Of(InputFile.Bytes(file, Largest)).Text);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return default;
        }
    }

    /// <summary>Whether a YAML file in a folder has the key <c>drawing</c> at its top: shop and material files lie beside. One that cannot be read is taken for one, so that it is told.</summary>
    private static bool IsDrawing(string file)
    {
        try
        {
            using var reader = new StreamReader(InputFile.Open(file));
            for (var i = 0; i < 200 && reader.ReadLine() is { } line; i++)
            {
                if (line.StartsWith("drawing:", StringComparison.Ordinal))
                    return true;
                // A survey names the drawing that it is of.
                if (line.StartsWith("survey:", StringComparison.Ordinal))
                    return false;
            }

            return false;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return true;
        }
    }
}
