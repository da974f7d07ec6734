namespace Rootgap.Cli;

/// <summary>Reads files that people name: no more than is asked for, and never waiting for ever.</summary>
internal static class InputFile
{
    /// <summary>How long a pipe may be silent: what feeds it, a program or a person, must have begun by then.</summary>
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(5);

    /// <summary>The whole file.</summary>
    /// <exception cref="IOException">It is longer than <paramref name="most"/> bytes, or cannot be read.</exception>
    public static byte[] Bytes(string file, long most)
    {
        using var stream = Open(file);
        var bytes = new MemoryStream(stream.CanSeek ? (int)Math.Min(stream.Length, most) : 0);
        var part = new byte[64 << 10];
        while (Read(stream, part, file) is > 0 and var count)
        {
            if (bytes.Length + count > most)
                throw new IOException($"{file} is larger than {most >> 20} MB: is this the right file?");
            bytes.Write(part, 0, count);
        }

        return bytes.ToArray();
    }

    /// <summary>A file named in a drawing, by its path beside it: in the job's folder and nowhere else; null where there is none that can be read.</summary>
    public static byte[]? Beside(DrawingFile drawing, string name, long most)
    {
        try
        {
            var path = Path.GetFullPath(Path.Combine(Path.GetDirectoryName(Path.GetFullPath(drawing.Name))!, name));
            // A drawing comes from elsewhere: it does not get to read what else lies on this machine, nor by a link.
            if (!IsBelow(drawing.Job, path) || !File.Exists(path) || !IsBelow(Real(drawing.Job), Real(path)))
                return null;
            return Bytes(path, most);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            return null;
        }
    }

    /// <summary>Opens a file. A pipe opens only when somebody writes into it; where nobody does, that is told.</summary>
    public static FileStream Open(string file)
    {
        if (new FileInfo(file).Length > 0)
            return new(file, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);
        // Empty, or no plain file at all: only these may keep one waiting.
        return Soon(() => new FileStream(file, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete), file);
    }

    private static int Read(FileStream stream, byte[] part, string file) =>
        stream.CanSeek ? stream.Read(part) : Soon(() => stream.Read(part), file);

    private static T Soon<T>(Func<T> work, string file)
    {
        var result = default(T);
        Exception? trouble = null;
        var worker = new Thread(() =>
        {
            try
            {
                result = work();
            }
            catch (Exception e)
            {
                trouble = e;
            }
        })
        { IsBackground = true };
        worker.Start();
        if (!worker.Join(Patience))
            throw new IOException($"{file} is a pipe or a device, and nothing comes out of it.");
        return trouble is null ? result! : throw new IOException(trouble.Message, trouble);
    }

    private static bool IsBelow(string folder, string path) =>
        path.StartsWith(folder.EndsWith(Path.DirectorySeparatorChar) ? folder : folder + Path.DirectorySeparatorChar, OperatingSystem.IsWindows() ? StringComparison.OrdinalIgnoreCase : StringComparison.Ordinal);

    /// <summary>Where a path leads when all links on its way are followed.</summary>
    private static string Real(string path)
    {
        var at = Path.GetPathRoot(path)!;
        foreach (var part in path[at.Length..].Split(Path.DirectorySeparatorChar, StringSplitOptions.RemoveEmptyEntries))
        {
            at = Path.Combine(at, part);
            FileSystemInfo info = Directory.Exists(at) ? new DirectoryInfo(at) : new FileInfo(at);
            at = info.ResolveLinkTarget(returnFinalTarget: true)?.FullName ?? at;
        }

        return at;
    }
}
