using System.Text;
using Rootgap.Findings;

namespace Rootgap.Cli;

/// <summary>Writes the changes that findings offer into their files, each with a copy of the old file beside it.</summary>
internal static class FileMending
{
    private static readonly UTF8Encoding Strict = new(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true);

    /// <summary>A file as it was and as it is written.</summary>
    public sealed record Written(string File, string Copy, byte[] Before, IReadOnlyList<Change> Made);

    /// <summary>Makes the changes of a drawing's findings; those of a shop or material file beside it too. What is accepted stays.</summary>
    /// <param name="already">What was written before in this run: its copies are the old files, and no more are made.</param>
    /// <exception cref="IOException">A file cannot be written.</exception>
    public static List<Written> Mend(string drawing, IReadOnlyList<Finding> findings, IReadOnlyList<Written> already)
    {
        var written = new List<Written>();
        foreach (var changes in findings.Where(f => f is { Change: not null, AcceptedBecause: null }).Select(f => f.Change!).GroupBy(c => PathOf(drawing, c.At.File), StringComparer.Ordinal))
        {
            var before = File.ReadAllBytes(changes.Key);
            var hasMark = before.AsSpan().StartsWith(Encoding.UTF8.Preamble);
            string text;
            try
            {
                text = Strict.GetString(hasMark ? before.AsSpan(3) : before);
            }
            catch (DecoderFallbackException)
            {
                // Not UTF-8: what is not understood is not written back.
                continue;
            }

            var (mended, made) = Mending.Apply(text, changes);
            if (made.Count == 0)
                continue;
            var first = already.FirstOrDefault(w => w.File == changes.Key);
            var copy = first?.Copy ?? CopyName(changes.Key);
            if (first is null)
                File.Copy(changes.Key, copy);
            Write(changes.Key, hasMark ? [.. Encoding.UTF8.Preamble, .. Strict.GetBytes(mended)] : Strict.GetBytes(mended));
            written.Add(new(changes.Key, copy, first?.Before ?? before, made));
        }

        return written;
    }

    /// <summary>Writes another text into a file and keeps the old one beside it, whose name is returned; a byte order mark stays.</summary>
    /// <exception cref="IOException">A file cannot be written.</exception>
    public static string Keep(string file, string text)
    {
        var before = File.ReadAllBytes(file);
        var copy = CopyName(file);
        File.Copy(file, copy);
        Write(file, before.AsSpan().StartsWith(Encoding.UTF8.Preamble) ? [.. Encoding.UTF8.Preamble, .. Strict.GetBytes(text.TrimStart('\uFEFF'))] : Strict.GetBytes(text));
        return copy;
    }

    /// <summary>Puts everything back as it was.</summary>
    public static void TakeBack(IReadOnlyList<Written> written)
    {
        foreach (var one in written)
        {
            if (!File.Exists(one.Copy))
                continue;
            Write(one.File, one.Before);
            File.Delete(one.Copy);
        }
    }

    /// <summary>Writes beside the file first, so that a full disc does not leave half a drawing.</summary>
    private static void Write(string file, byte[] bytes)
    {
        var beside = file + ".new";
        File.WriteAllBytes(beside, bytes);
        File.Move(beside, file, overwrite: true);
    }

    private static string CopyName(string file)
    {
        var name = file + ".old";
        for (var i = 2; File.Exists(name); i++)
            name = string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{file}.old{i}");
        return name;
    }

    private static string PathOf(string drawing, string file) =>
        file == drawing ? drawing : Path.Combine(Path.GetDirectoryName(Path.GetFullPath(drawing))!, file);
}
