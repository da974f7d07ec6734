using System.Globalization;
using Rootgap.Fabricating;
using Rootgap.Measure;

namespace Rootgap.Checks;

/// <summary>What becomes of a piece that is cut already.</summary>
public enum Fate
{
    /// <summary>Fits its place in the new drawing.</summary>
    Usable,

    /// <summary>Fits when it is cut shorter, or an end is made anew.</summary>
    UsableTrimmed,

    /// <summary>Fits no place of the new drawing.</summary>
    Spoiled,

    /// <summary>The old drawing has no such piece.</summary>
    Unknown,
}

/// <summary>A piece that is cut already: the mark on it and, where somebody measured it, its length.</summary>
/// <param name="Length">mm; null where it was cut as the old drawing says.</param>
public readonly record struct CutPiece(string Piece, double? Length)
{
    /// <summary>Reads one line, <c>1-A</c> or <c>1-A, 1146.4</c> (comma, semicolon, tab or blanks between); null for an empty line, a comment or a heading.</summary>
    public static CutPiece? Parse(string line)
    {
        var text = line.Trim();
        if (text.Length == 0 || text[0] == '#')
            return null;
        var parts = text.Split([',', ';', '\t', ' '], StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        if (parts.Length == 0 || parts[0].Equals("piece", StringComparison.OrdinalIgnoreCase))
            return null;
        var piece = parts[0].Trim('"');
        return parts.Length > 1 && double.TryParse(parts[1].Trim('"'), NumberStyles.Float, CultureInfo.InvariantCulture, out var mm) && mm > 0 ? new(piece, mm) : new(piece, null);
    }
}

/// <summary>The fate of one piece that is cut already.</summary>
/// <param name="UseAs">Its place in the new drawing; null where there is none.</param>
/// <param name="TrimBy">What comes off, mm; 0 where nothing does.</param>
public sealed record CutAlready(CutPiece Piece, double Length, Fate Fate, string? UseAs, double TrimBy, string Says)
{
    /// <summary>A trimmed piece is cut again: less than this cannot be sawn off, it is ground, mm.</summary>
    private const double Least = 1;

    /// <summary>The fates of pieces in the order given. A spoiled piece is offered to places of the new drawing that have none yet, the longest first.</summary>
    public static IReadOnlyList<CutAlready> Of(Comparison comparison, IReadOnlyList<CutPiece> pieces)
    {
        var fates = new CutAlready?[pieces.Count];
        var open = comparison.Pieces.Where(p => p.New is not null).Select(p => p.New!).ToList();
        var olds = new PieceChange?[pieces.Count];
        for (var i = 0; i < pieces.Count; i++)
        {
            var piece = pieces[i];
            olds[i] = comparison.Pieces.FirstOrDefault(p => p.Old?.Piece.Equals(piece.Piece, StringComparison.OrdinalIgnoreCase) == true);
            if (olds[i] is not { } change)
            {
                fates[i] = new(piece, piece.Length ?? 0, Fate.Unknown, null, 0, "the old drawing has no such piece");
                continue;
            }

            var length = piece.Length ?? change.Old!.Length;
            if (change.New is { } own && open.Contains(own) && InPlace(piece, length, change, own) is { } fits)
            {
                fates[i] = fits;
                open.Remove(own);
            }
        }

        // Longest first: a long piece left over serves a long place.
        foreach (var i in Enumerable.Range(0, pieces.Count).Where(i => fates[i] is null).OrderByDescending(i => pieces[i].Length ?? olds[i]!.Old!.Length).ThenBy(i => i))
        {
            var (piece, change) = (pieces[i], olds[i]!);
            var length = piece.Length ?? change.Old!.Length;
            var place = open.Where(n => IsSamePipe(change.Old!, n) && n.Length <= length + Comparison.SameLength).MaxBy(n => n.Length);
            var short_ = change.New is { } own && length < own.Length - Comparison.SameLength ? FormattableString.Invariant($"{own.Length - length:0.#} too short for {own.Piece}") : null;
            var why = short_ ?? (change.New is null ? "its place is gone" : string.Join("; ", change.Differences));
            if (place is not null)
            {
                open.Remove(place);
                var trim = Math.Max(0, length - place.Length);
                fates[i] = new(piece, length, Fate.UsableTrimmed, place.Piece, trim, FormattableString.Invariant($"{why}; use it as {place.Piece}, {(trim > Least ? $"trimmed by {trim:0.#}" : "as long as it is")}"));
            }
            else
            {
                fates[i] = new(piece, length, Fate.Spoiled, null, 0, why);
            }
        }

        return [.. fates.Select(f => f!)];
    }

    /// <summary>The fate of a piece in its own place; null where it does not fit there.</summary>
    private static CutAlready? InPlace(CutPiece piece, double length, PieceChange change, Cut own)
    {
        if (!IsSamePipe(change.Old!, own) || change.Differences.Any(d => d.StartsWith("holes", StringComparison.Ordinal) && !d.StartsWith("holes none", StringComparison.Ordinal)))
            return null;
        var trim = length - own.Length;
        var renamed = own.Piece == change.Old!.Piece ? "" : $"; it is now {own.Piece}";
        var ends = change.Differences.Where(d => d.Contains(" end is now ", StringComparison.Ordinal)).ToList();
        var more = change.Differences.Except(ends, StringComparer.Ordinal).ToList();
        var rest = string.Concat(ends.Concat(more).Select(d => "; " + d));
        if (Math.Abs(trim) <= Comparison.SameLength)
            return new(piece, length, ends.Count > 0 ? Fate.UsableTrimmed : Fate.Usable, own.Piece, 0, (ends.Count > 0 ? "the same length" : "as it is") + rest + renamed);
        if (trim > 0)
            return new(piece, length, Fate.UsableTrimmed, own.Piece, trim, FormattableString.Invariant($"trim by {trim:0.#} to {own.Length:0.#}{rest}{renamed}"));
        // A final-fit piece may be short of some of its extra.
        return own.Extra > 0 && -trim < own.Extra
            ? new(piece, length, Fate.Usable, own.Piece, 0, FormattableString.Invariant($"usable with {own.Extra + trim:0.#} of the {own.Extra:0.#} final-fit extra{rest}{renamed}"))
            : null;
    }

    private static bool IsSamePipe(Cut a, Cut b) =>
        a.Pipe.Size == b.Pipe.Size && Math.Abs(a.Pipe.Wall - b.Pipe.Wall) < 0.01 && Standards.Metals.Plain(PiecePairs.MaterialOf(a)) == Standards.Metals.Plain(PiecePairs.MaterialOf(b));
}
