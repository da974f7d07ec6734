using Rootgap.Comparing;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Records;
using RecordMark = Rootgap.Records.Mark;

namespace Rootgap.Sheets;

/// <summary>What a revision does to a part, as the isometric of the new drawing shows it.</summary>
public enum Change
{
    /// <summary>It is not in the old drawing.</summary>
    Added,

    /// <summary>It is in both, and otherwise; nothing of it is made yet, as far as is known.</summary>
    Changed,

    /// <summary>Something was done at it: somebody looks at the steel.</summary>
    LookAt,

    /// <summary>It is cut, and fits when it is made shorter or an end is made anew.</summary>
    Trim,

    /// <summary>It is cut, and does not fit any more.</summary>
    Spoiled,
}

/// <summary>A part of a drawing that another version has otherwise, with what is written at it on the isometric.</summary>
/// <param name="Words">What is written behind its name, and below it.</param>
public sealed record ChangedPart(Change Change, IReadOnlyList<string> Words)
{
    /// <summary>Red: what costs steel.</summary>
    public bool IsBad => Change is Change.Spoiled or Change.Trim;

    /// <summary>The class that its strokes have in the picture.</summary>
    internal string Class => "revised " + (Change == Change.LookAt ? "look" : Change.ToString().ToLowerInvariant());

    /// <summary>All of a comparison that can be shown on the new drawing: by the marks of pieces and the ids of components and joints. What is gone has no place on it.</summary>
    /// <param name="done">What was done, as it stands on the new drawing; null where nothing is known.</param>
    /// <param name="cut">What becomes of pieces that are cut, where there is no record.</param>
    public static IReadOnlyDictionary<string, ChangedPart> Of(Comparison comparison, DrawingRecord? done = null, IReadOnlyList<CutAlready>? cut = null)
    {
        var parts = new Dictionary<string, ChangedPart>(StringComparer.Ordinal);
        foreach (var d in comparison.Components.Concat(comparison.Joints))
        {
            if (d.Part is { } part)
                parts[part] = d.Kind == "added" ? new(Change.Added, ["new"]) : new(Change.Changed, ["changed"]);
        }

        foreach (var piece in comparison.Pieces)
        {
            if (piece.New is not { } now || piece.IsSame)
                continue;
            parts[now.Piece] = piece.Old is not { } old ? new(Change.Added, ["new"]) : new(Change.Changed, Lengths(comparison, old, now));
        }

        foreach (var fate in cut ?? [])
        {
            // Where it was cut for, another piece is sawn: also where it does for another place.
            if (comparison.OfPiece(fate.Piece.Piece)?.Now is { } here && fate.UseAs != here)
                parts[here] = new(Change.Spoiled, [fate.Fate == Fate.Spoiled ? "spoiled" : "cut anew", .. Lengths(comparison, here)]);
        }

        foreach (var fate in cut ?? [])
        {
            if (fate.UseAs is not { } place)
                continue;
            string[] from = comparison.OfPiece(fate.Piece.Piece)?.Now == place ? [] : [$"from {fate.Piece.Piece}"];
            if (fate.Fate == Fate.UsableTrimmed)
                parts[place] = new(Change.Trim, [fate.TrimBy > 0 ? $"trim {comparison.Figure(fate.TrimBy)}" : "an end made anew", .. from, .. Lengths(comparison, place)]);
            else if (from.Length > 0)
                parts[place] = new(Change.Changed, from);
        }

        foreach (var marked in done?.Marked ?? [])
        {
            if (marked.Now is not { } now || marked.Mark is RecordMark.Stays or RecordMark.Gone)
                continue;
            var before = parts.GetValueOrDefault(now);
            if (before?.IsBad == true)
                continue;
            parts[now] = marked.Mark == RecordMark.Spoiled ? new(Change.Spoiled, ["spoiled", .. Lengths(comparison, now)])
                : marked.Entry.Fact is PieceCut ? new(Change.Trim, Shorter(comparison, now) is { } off ? [$"trim {off}", .. Lengths(comparison, now)] : ["cut otherwise"])
                : new(Change.LookAt, ["look", .. before?.Words.Where(w => w is not "changed") ?? []]);
        }

        return parts;
    }

    private static PieceChange? PieceOf(Comparison comparison, string mark) => comparison.Pieces.FirstOrDefault(p => p.New?.Piece == mark);

    private static string? Shorter(Comparison comparison, string mark) =>
        PieceOf(comparison, mark) is { Old: { } old, New: { } now } && old.SawLength - now.SawLength > Comparison.SameLength ? comparison.Figure(old.SawLength - now.SawLength) : null;

    private static IEnumerable<string> Lengths(Comparison comparison, string mark) =>
        PieceOf(comparison, mark) is { Old: { } old, New: { } now } && Math.Abs(old.SawLength - now.SawLength) > Comparison.SameLength ? [$"{comparison.Figure(old.SawLength)} → {comparison.Figure(now.SawLength)}"] : [];

    private static IReadOnlyList<string> Lengths(Comparison comparison, Cut old, Cut now) => Math.Abs(now.SawLength - old.SawLength) <= Comparison.SameLength ? ["changed"]
        : [$"{comparison.Figure(Math.Abs(now.SawLength - old.SawLength))} {(now.SawLength > old.SawLength ? "longer" : "shorter")}", $"{comparison.Figure(old.SawLength)} → {comparison.Figure(now.SawLength)}"];
}
