using System.Diagnostics;
using System.Globalization;
using System.Runtime.InteropServices;
using Rootgap.Sheets;

namespace Rootgap.Cli;

/// <summary>One file that a command writes: beside the old one first, and in its place when it is whole.</summary>
internal static class OutputFile
{
    private const string Half = ".new";

    private const int DotsPerInch = 150;

    /// <summary>Writes a drawing as the file's ending says: .svg, .pdf or .png.</summary>
    /// <returns>Why it is not written; null where it is.</returns>
    public static string? Draw(string file, Scene scene)
    {
        Action<Stream>? write = Path.GetExtension(file).ToUpperInvariant() switch
        {
            ".SVG" => to => SvgWriter.Write(scene, to),
            ".PDF" => to => PdfWriter.Write(to, scene.Title, [scene]),
            ".PNG" => to => PngWriter.Write(scene, DotsPerInch, to),
            _ => null,
        };
        if (write is null)
            return "the picture is written as .svg, .pdf or .png.";
        try
        {
            Write(file, write);
            return null;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return $"cannot be written: {e.Message}";
        }
    }

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

        var (folder, name) = (Path.GetDirectoryName(target)!, Path.GetFileName(target));
        ClearUp(folder, name);
        var beside = Path.Combine(folder, string.Create(CultureInfo.InvariantCulture, $".{name}.{Environment.ProcessId}{Half}"));
        var isStopped = false;
        List<PosixSignalRegistration> signals = [.. new[] { PosixSignal.SIGINT, PosixSignal.SIGTERM, PosixSignal.SIGHUP, PosixSignal.SIGQUIT }.Select(s => PosixSignalRegistration.Create(s, Stop))];
        try
        {
            using (var to = File.Create(beside))
                write(to);
            File.Move(beside, target, overwrite: true);
        }
        catch (IOException) when (Volatile.Read(ref isStopped))
        {
            // The one who stopped it has cleared up, and ends the program.
            Thread.Sleep(Timeout.Infinite);
        }
        finally
        {
            signals.ForEach(s => s.Dispose());
            File.Delete(beside);
        }

        void Stop(PosixSignalContext context)
        {
            context.Cancel = true;
            Volatile.Write(ref isStopped, true);
            File.Delete(beside);
            Console.Error.WriteLine($"Stopped. {file} is the old one or the new one, whole.");
            Environment.Exit(ExitCode.Stopped);
        }
    }

    // What a command left half written that was killed. One that is still at work keeps its own.
    private static void ClearUp(string folder, string name)
    {
        if (!Directory.Exists(folder))
            return;
        foreach (var left in Directory.EnumerateFiles(folder, $".{name}.*{Half}"))
        {
            var number = Path.GetFileName(left)[(name.Length + 2)..^Half.Length];
            if (!int.TryParse(number, NumberStyles.None, CultureInfo.InvariantCulture, out var process) || IsRunning(process))
                continue;
            File.Delete(left);
        }
    }

    private static bool IsRunning(int process)
    {
        try
        {
            using var running = Process.GetProcessById(process);
            return true;
        }
        catch (ArgumentException)
        {
            return false;
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
