using Rootgap.Fabricating;

namespace Rootgap.Comparing;

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

/// <summary>The fate of one piece that is cut already.</summary>
/// <param name="Length">What it measures, or what the saw was told, mm.</param>
/// <param name="UseAs">Its place in the new drawing; null where there is none.</param>
/// <param name="TrimBy">What comes off, mm; 0 where nothing does.</param>
public sealed record CutAlready(CutPiece Piece, double Length, Fate Fate, string? UseAs, double TrimBy, string Says)
{
    // Costs of the assignment: first as few pieces spoiled as can be, then as many as can be in their own places, then as few sawn again, then as little sawn off (mm).
    private const double Never = 1e12;
    private const double Spoiling = 1e9;
    private const double Moving = 1e7;
    private const double Sawing = 1e6;

    /// <summary>
    /// The fates of pieces in the order given: all places of the new drawing are shared out among them together, so that the fewest are spoiled. A piece goes to
    /// another spool where that saves one.
    /// </summary>
    public static IReadOnlyList<CutAlready> Of(Comparison comparison, IReadOnlyList<CutPiece> pieces)
    {
        var changes = pieces.Select(p => comparison.Pieces.FirstOrDefault(c => c.Old?.Piece.Equals(p.Piece, StringComparison.OrdinalIgnoreCase) == true)).ToList();
        var known = Enumerable.Range(0, pieces.Count).Where(i => changes[i] is not null).ToList();
        var shapes = known.Select(i => comparison.ShapeOfOld(changes[i]!.Old!.Piece, pieces[i].Length)).ToList();
        List<Cut> places = [.. comparison.Pieces.Select(c => c.New).OfType<Cut>()];
        var wanted = places.Select(comparison.ShapeOfNew).ToList();
        var fits = new Fit?[known.Count, places.Count];
        for (var row = 0; row < known.Count; row++)
        {
            for (var place = 0; place < places.Count; place++)
                fits[row, place] = Fit.Of(pieces[known[row]], changes[known[row]]!, shapes[row], places[place], wanted[place]);
        }

        var columns = Assignment.Of(known.Count, places.Count + known.Count, (row, place) =>
            place >= places.Count ? Spoiling
            : fits[row, place] is not { } fit ? Never
            : (changes[known[row]]!.New == places[place] ? 0 : Moving) + (fit.Trim.IsNothing ? 0 : Sawing) + fit.Trim.Off + fit.Missing);
        var fates = pieces.Select(p => new CutAlready(p, p.Length ?? 0, Fate.Unknown, null, 0, "the old drawing has no such piece")).ToArray();
        for (var row = 0; row < known.Count; row++)
        {
            var (i, change) = (known[row], changes[known[row]]!);
            fates[i] = columns[row] < places.Count
                ? Usable(comparison, pieces[i], shapes[row].Length, change, places[columns[row]], fits[row, columns[row]]!.Value)
                : new(pieces[i], shapes[row].Length, Fate.Spoiled, null, 0, WhyNot(comparison, change, shapes[row].Length));
        }

        return fates;
    }

    /// <summary>What a piece needs to serve at a place.</summary>
    /// <param name="Missing">What it is short of the place's final-fit extra, mm.</param>
    private readonly record struct Fit(Trim Trim, double Missing)
    {
        public static Fit? Of(CutPiece piece, PieceChange change, PipeShape shape, Cut place, PipeShape wanted)
        {
            var old = change.Old!;
            var (start, end) = (piece.StartIsJoined, piece.EndIsJoined);
            if ((start || end) && change.New != place)
                return null;
            bool? keep = start ? true : end ? false : null;
            if (old.Pipe.Size != place.Pipe.Size || Math.Abs(old.Pipe.Wall - place.Pipe.Wall) > 0.01 || Steel.OtherMaterial(old, place) is not null)
                return null;
            if (shape.ToBecome(wanted, keep) is { } trim)
                return start && end && (trim.Off > Comparison.SameLength || trim.StartAnew || trim.EndAnew) ? null : new(trim, 0);
            // A final-fit piece may be short of some of its extra.
            var missing = wanted.Length - shape.Length;
            return missing > 0 && missing < place.Extra && shape.ToBecome(wanted with { Length = shape.Length, Holes = place.Pipe.ExtraAtStart ? [.. wanted.Holes.Select(h => h with { At = h.At - missing })] : wanted.Holes }, keep) is { } cut
                ? new(cut, missing)
                : null;
        }
    }

    private static CutAlready Usable(Comparison comparison, CutPiece piece, double length, PieceChange change, Cut place, Fit fit)
    {
        var (trim, old) = (fit.Trim, change.Old!);
        List<string> says = [];
        if (change.New != place)
            says.Add(WhyNot(comparison, change, length) is { Length: > 0 } why ? $"{why}; use it as {place.Piece}" : $"use it as {place.Piece}");
        if (trim.Off > Comparison.SameLength)
            says.Add($"trim by {comparison.Figure(trim.Off)} to {comparison.Figure(place.SawLength)}: {string.Join(" and ", Ends())}");
        else
            says.Add(trim.IsNothing ? "as it is" : "the same length");
        if (fit.Missing > 0)
            says.Add($"usable with {comparison.Figure(place.Extra - fit.Missing)} of the {comparison.Figure(place.Extra)} final-fit extra");
        // An end that is cut is prepared anew anyhow.
        var (start, end) = (trim.StartAnew && trim.AtStart <= Comparison.SameLength, trim.EndAnew && trim.AtEnd <= Comparison.SameLength);
        if (start || end)
            says.Add($"{(start && end ? "both ends are" : $"the end at {comparison.EndInWords(old, start)} is")} prepared anew");
        if (trim.HolesToMake > 0)
            says.Add(trim.HolesToMake == 1 ? "one hole is still to be made" : FormattableString.Invariant($"{trim.HolesToMake} holes are still to be made"));
        if (change.New == place && place.Piece != old.Piece)
            says.Add($"it is now {place.Piece}");
        return new(piece, length, trim.IsNothing ? Fate.Usable : Fate.UsableTrimmed, place.Piece, trim.Off > Comparison.SameLength ? trim.Off : 0, string.Join("; ", says));

        IEnumerable<string> Ends()
        {
            if (trim.AtStart > Comparison.SameLength)
                yield return $"{comparison.Figure(trim.AtStart)} off the end at {comparison.EndInWords(old, true)}";
            if (trim.AtEnd > Comparison.SameLength)
                yield return $"{comparison.Figure(trim.AtEnd)} off the end at {comparison.EndInWords(old, false)}";
        }
    }

    private static string WhyNot(Comparison comparison, PieceChange change, double length)
    {
        if (change.New is not { } own)
            return "its place is gone";
        List<string> why = [];
        if (own.SawLength - length > Comparison.SameLength)
            why.Add($"{comparison.Figure(own.SawLength - length)} too short for {own.Piece}");
        why.AddRange(change.Differences);
        return string.Join("; ", why);
    }
}
