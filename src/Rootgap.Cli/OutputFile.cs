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

    private static bool IsDevice(string path) => !OperatingSystem.IsWindows() && (path.StartsWith("/dev/", StringComparison.Ordinal) || path.StartsWith("/proc/", StringComparison.Ordinal));
}
