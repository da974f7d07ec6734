using System.Text;
using Rootgap.Findings;

namespace Rootgap.Drawings;

/// <summary>The bytes of a file as text. Files are UTF-8; anything else is told with its place, and never read as something that was not written.</summary>
public static class FileText
{
    private static readonly UTF8Encoding Strict = new(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true);

    /// <summary>The text without its byte order mark, and what is wrong with it; the place is 0 where nothing is. What is no UTF-8 stands in the text as a sign for that.</summary>
    public static (string Text, (int Line, int Column) Bad, string Kind) Of(ReadOnlySpan<byte> bytes)
    {
        if (bytes is [0xff, 0xfe, ..] or [0xfe, 0xff, ..])
            return ("", (1, 1), "UTF-16");
        if (bytes.StartsWith(Encoding.UTF8.Preamble))
            bytes = bytes[3..];
        var bad = System.Text.Unicode.Utf8.IsValid(bytes) ? -1 : FirstBad(bytes);
        var text = bad < 0 ? Strict.GetString(bytes) : Encoding.UTF8.GetString(bytes);
        if (bad < 0)
            return text.Contains('\0', StringComparison.Ordinal) ? (text, PlaceOf(text.AsSpan(0, text.IndexOf('\0', StringComparison.Ordinal))), "no text") : (text, default, "");
        return (text, PlaceOf(Encoding.UTF8.GetString(bytes[..bad])), "no UTF-8");
    }

    /// <summary>The text; what is wrong with it goes to <paramref name="errors"/>.</summary>
    /// <param name="path">Path in the drawing that the file stands for.</param>
    internal static string Read(ReadOnlySpan<byte> bytes, string file, string path, ReadingErrors errors)
    {
        var (text, (line, column), kind) = Of(bytes);
        if (line > 0)
            errors.Add("not-utf-8", new(file, line, column, column + 1), path, $"The file is {kind}{(kind == "UTF-16" ? "" : " from here on")}: what stands there cannot be told for sure.", "Save it again as UTF-8: in an editor under \"Save as\", in a spreadsheet as \"CSV UTF-8\".");
        return text;
    }

    private static (int Line, int Column) PlaceOf(ReadOnlySpan<char> before) => (before.Count('\n') + 1, before.Length - before.LastIndexOf('\n'));

    private static int FirstBad(ReadOnlySpan<byte> bytes)
    {
        var at = 0;
        while (at < bytes.Length && Rune.DecodeFromUtf8(bytes[at..], out _, out var length) == System.Buffers.OperationStatus.Done)
            at += length;
        return at;
    }
}
