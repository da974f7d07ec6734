using System.Globalization;
using Rootgap.Measure;

namespace Rootgap.Comparing;

/// <summary>A piece that is cut already: the mark on it and, where somebody measured it, its length.</summary>
/// <param name="Length">mm; null where it was cut as the old drawing says.</param>
public readonly record struct CutPiece(string Piece, double? Length)
{
    /// <summary>Its start is tacked or welded already: it cannot be trimmed there, nor go elsewhere.</summary>
    public bool StartIsJoined { get; init; }

    /// <summary>Likewise its end.</summary>
    public bool EndIsJoined { get; init; }

    private static readonly char[] Parting = [',', ';', '\t'];

    /// <summary>
    /// Reads one line, <c>1-A</c> or <c>1-A, 1146.4</c> (comma, semicolon, tab or a blank between; what follows a second comma is not read). The piece is null for an
    /// empty line, a comment or a heading; <paramref name="wrong"/> says what is wrong and what to write, and is null where nothing is.
    /// </summary>
    public static CutPiece? Parse(string line, out string? wrong)
    {
        wrong = null;
        var text = line.Trim();
        if (text.Length == 0 || text[0] == '#')
            return null;
        var parts = text.IndexOfAny(Parting) >= 0 ? [.. text.Split(Parting).Select(p => p.Trim().Trim('"').Trim())] : ByBlank(text);
        var piece = parts[0];
        if (piece.Equals("piece", StringComparison.OrdinalIgnoreCase))
            return null;
        if (piece.Length == 0)
        {
            wrong = "This line names no piece. Write its mark first: 1-A, or 1-A, 1146.4 where it was measured.";
            return null;
        }

        if (parts.Length == 1 || parts[1].Length == 0)
            return new(piece, null);
        if (parts.Length > 2 && !text.Contains('"', StringComparison.Ordinal) && IsDecimalComma(text, parts))
        {
            wrong = $"\"{parts[1]},{parts[2]}\" is no length: write the decimal sign as a point, {parts[1]}.{parts[2]}.";
            return null;
        }

        if (LengthText.TryParse(parts[1], Units.Millimetres, out var mm) && mm is > 0 and <= 1e6)
            return new(piece, mm);
        wrong = $"\"{parts[1]}\" is no length of a piece: write millimetres such as 1146.4, or nothing where it was cut as drawn.";
        return null;
    }

    private static string[] ByBlank(string text)
    {
        // A spool's name may have a blank; a length stands last.
        var at = text.LastIndexOf(' ');
        return at > 0 && char.IsAsciiDigit(text[at + 1]) && double.TryParse(text.AsSpan(at + 1), NumberStyles.Float, CultureInfo.InvariantCulture, out _)
            ? [text[..at].Trim().Trim('"'), text[(at + 1)..]]
            : [text.Trim('"')];
    }

    private static bool IsDecimalComma(string text, string[] parts) =>
        parts[1].All(char.IsAsciiDigit) && parts[2].Length is > 0 and <= 3 && parts[2].All(char.IsAsciiDigit) && text.Contains($"{parts[1]},{parts[2]}", StringComparison.Ordinal);
}
