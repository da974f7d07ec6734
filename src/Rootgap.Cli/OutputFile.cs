namespace Rootgap.Cli;

/// <summary>One file that a command writes: beside the old one first, and in its place when it is whole.</summary>
internal static class OutputFile
{
    /// <exception cref="IOException">It cannot be written; the old file stands as it was.</exception>
    public static void Write(string file, Action<Stream> write)
    {
        // A link stays a link; what is no plain file, a terminal or a pipe, is written into as it is.
        var target = File.Exists(file) && File.ResolveLinkTarget(file, returnFinalTarget: true) is { } link ? link.FullName : Path.GetFullPath(file);
        if (IsDevice(target))
        {
            using var open = new FileStream(target, FileMode.Open, FileAccess.Write, FileShare.ReadWrite);
            write(open);
            return;
        }

        var beside = Path.Combine(Path.GetDirectoryName(target)!, $".{Path.GetFileName(target)}.{Environment.ProcessId}.new");
        try
        {
            using (var to = File.Create(beside))
                write(to);
            File.Move(beside, target, overwrite: true);
        }
        finally
        {
            File.Delete(beside);
        }
    }

    /// <summary>Adds to a file at its end, all of it or nothing. Two at once follow each other.</summary>
    /// <exception cref="IOException">It cannot be added; the file stands as it was.</exception>
    public static void Append(string file, ReadOnlySpan<byte> more)
    {
        using var to = new FileStream(file, FileMode.Append, FileAccess.Write, FileShare.None, bufferSize: 0);
        var before = to.Length;
        try
        {
            to.Write(more);
        }
        catch (Exception e) when (e is IOException or ArgumentOutOfRangeException)
        {
            to.SetLength(before);
            throw new IOException(e.Message, e);
        }
    }

    private static bool IsDevice(string path) => !OperatingSystem.IsWindows() && (path.StartsWith("/dev/", StringComparison.Ordinal) || path.StartsWith("/proc/", StringComparison.Ordinal));
}
