using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>A piece of pipe in the old drawing, in the new one, or in both.</summary>
/// <param name="Differences">What differs besides the length, in words; empty where nothing does.</param>
public sealed record PieceChange(Cut? Old, Cut? New, IReadOnlyList<string> Differences)
{
    /// <summary>How much longer the new piece is, mm; 0 where one of the two is not there.</summary>
    public double By => Old is not null && New is not null ? New.Length - Old.Length : 0;

    public bool IsSame => Old is not null && New is not null && Math.Abs(By) <= Comparison.SameLength && Differences.Count == 0;
}

/// <summary>Something added, taken out or changed: what it is, and the words for it.</summary>
/// <param name="Kind">added, removed or changed.</param>
/// <param name="Name">What it is: <c>W5</c>, <c>elbow 90 LR NPS 6</c>, <c>item 3</c>.</param>
public sealed record Difference(string Kind, string Name, string Says);

/// <summary>What a spool of the new drawing is beside the old one's.</summary>
/// <param name="Old">Name in the old drawing; null where the spool is new.</param>
/// <param name="New">Name in the new drawing; null where the spool is gone.</param>
/// <param name="Why">What touches it, in words; empty where it is untouched.</param>
public sealed record SpoolChange(string? Old, string? New, IReadOnlyList<string> Why)
{
    public bool IsTouched => Old is null || New is null || Why.Count > 0;
}

/// <summary>What changed between two revisions of a drawing, in the trade's terms.</summary>
public sealed record Comparison
{
    /// <summary>Two lengths within this are one, mm: half of what a tape shows.</summary>
    public const double SameLength = 0.5;

    public required Drawing Old { get; init; }

    public required Drawing New { get; init; }

    /// <summary>Every piece of either, in the order of the new line, those that are gone last.</summary>
    public required IReadOnlyList<PieceChange> Pieces { get; init; }

    public required IReadOnlyList<Difference> Joints { get; init; }

    public required IReadOnlyList<Difference> Components { get; init; }

    public required IReadOnlyList<Difference> Items { get; init; }

    public required IReadOnlyList<SpoolChange> Spools { get; init; }

    /// <summary>Ends of runs that stand elsewhere.</summary>
    public required IReadOnlyList<Difference> Ends { get; init; }

    public bool IsSame => Old.Revision == New.Revision && Pieces.All(p => p.IsSame) && Joints.Count == 0 && Components.Count == 0 && Items.Count == 0 && Ends.Count == 0 && Spools.All(s => !s.IsTouched);

    public static Comparison Of(Fabrication old, Fabrication @new)
    {
        var legs = new LegPairs(old.Route, @new.Route);
        var pieces = PiecePairs.Of(old, @new, legs);
        var components = Parts.Components(old, @new, legs);
        var joints = Parts.Joints(old, @new, legs);
        return new()
        {
            Old = old.Route.Drawing,
            New = @new.Route.Drawing,
            Pieces = pieces,
            Components = [.. components.Select(c => c.Says)],
            Joints = [.. joints.Select(j => j.Says)],
            Items = Parts.Items(old, @new),
            Spools = SpoolPairs.Of(old, @new, pieces, [.. components, .. joints]),
            Ends = Parts.Ends(old.Route, @new.Route),
        };
    }
}

/// <summary>Finds the pieces of one drawing in the other: by run, legs and size, and not by their letters, which move when a piece is put in.</summary>
internal static class PiecePairs
{
    public static List<PieceChange> Of(Fabrication old, Fabrication @new, LegPairs legs)
    {
        var left = old.Cuts.ToList();
        var found = new Cut?[@new.Cuts.Count];
        // First those that begin on the same leg, then those that end on it, then those of the same length in the same run.
        Find((o, n) => legs.Of(o.Pipe.Run, o.Pipe.FirstLeg) == (n.Pipe.Run, n.Pipe.FirstLeg) && legs.Of(o.Pipe.Run, o.Pipe.LastLeg) == (n.Pipe.Run, n.Pipe.LastLeg));
        Find((o, n) => legs.Of(o.Pipe.Run, o.Pipe.FirstLeg) == (n.Pipe.Run, n.Pipe.FirstLeg) && o.Pipe.Size == n.Pipe.Size);
        Find((o, n) => legs.Of(o.Pipe.Run, o.Pipe.LastLeg) == (n.Pipe.Run, n.Pipe.LastLeg) && o.Pipe.Size == n.Pipe.Size);
        Find((o, n) => legs.Of(o.Pipe.Run, -1)?.Run == n.Pipe.Run && o.Pipe.Size == n.Pipe.Size && Math.Abs(o.Length - n.Length) <= Comparison.SameLength);
        List<PieceChange> changes = [.. @new.Cuts.Select((n, i) => new PieceChange(found[i], n, found[i] is { } o ? Differences(old.Route, o, @new.Route, n) : []))];
        changes.AddRange(left.Select(o => new PieceChange(o, null, [])));
        return changes;

        void Find(Func<Cut, Cut, bool> isSame)
        {
            for (var i = 0; i < found.Length; i++)
            {
                if (found[i] is not null || left.FindIndex(o => isSame(o, @new.Cuts[i])) is not (>= 0 and var at))
                    continue;
                found[i] = left[at];
                left.RemoveAt(at);
            }
        }
    }

    /// <summary>What differs between two pieces besides their length.</summary>
    public static List<string> Differences(Route old, Cut o, Route @new, Cut n)
    {
        var differences = new List<string>();
        if (o.Pipe.Size != n.Pipe.Size)
            differences.Add($"NPS {o.Pipe.Size} is now NPS {n.Pipe.Size}");
        else if (Math.Abs(o.Pipe.Wall - n.Pipe.Wall) > 0.01)
            differences.Add(FormattableString.Invariant($"wall {o.Pipe.Wall:0.##} is now {n.Pipe.Wall:0.##}"));
        if (!Standards.Metals.Plain(MaterialOf(o)).Equals(Standards.Metals.Plain(MaterialOf(n)), StringComparison.Ordinal) && MaterialOf(o).Length > 0 && MaterialOf(n).Length > 0)
            differences.Add($"{MaterialOf(o)} is now {MaterialOf(n)}");
        if (o.AtStart.Word != n.AtStart.Word)
            differences.Add($"{o.AtStart.Word} end is now {n.AtStart.Word}");
        if (o.AtEnd.Word != n.AtEnd.Word)
            differences.Add($"{o.AtEnd.Word} end is now {n.AtEnd.Word}");
        if (Holes(old, o) != Holes(@new, n))
            differences.Add($"holes {Says(Holes(old, o))} are now {Says(Holes(@new, n))}");
        return differences;
    }

    public static string MaterialOf(Cut cut) => cut.Pipe.Item?.Material is { Length: > 0 } own ? own : cut.Pipe.Line.Material;

    private static string Says(string holes) => holes.Length > 0 ? "at " + holes : "none";

    /// <summary>Where branches are set on a piece, from its start, mm, and how large.</summary>
    private static string Holes(Route route, Cut cut)
    {
        var pipe = cut.Pipe;
        if (pipe.FirstLeg == pipe.LastLeg)
            return "";
        var run = route.Runs[pipe.Run];
        var holes = new List<string>();
        for (var leg = pipe.FirstLeg; leg < pipe.LastLeg; leg++)
        {
            var size = run.Run.Legs[leg].To switch { OutletPoint o => o.Size, StubInPoint s => s.Size, _ => default };
            if (!size.IsNone)
                holes.Add(FormattableString.Invariant($"{(run.Points[leg + 1] - pipe.Start).Dot(pipe.Direction) + (pipe.ExtraAtStart ? route.Drawing.Shop.FinalFitExtra : 0):0.#} (NPS {size})"));
        }

        return string.Join(", ", holes);
    }
}

/// <summary>Finds the spools of one drawing in the other: a spool is where most of its parts are.</summary>
internal static class SpoolPairs
{
    public static List<SpoolChange> Of(Fabrication old, Fabrication @new, List<PieceChange> pieces, List<PartChange> parts)
    {
        var changes = new List<SpoolChange>();
        var taken = new HashSet<string>(StringComparer.Ordinal);
        foreach (var spool in @new.Spools)
        {
            var before = pieces.Where(p => p.New?.Spool == spool.Name && p.Old is not null).Select(p => p.Old!.Spool)
                .GroupBy(s => s, StringComparer.Ordinal).OrderByDescending(g => g.Count()).ThenBy(g => g.Key, StringComparer.Ordinal).Select(g => g.Key).FirstOrDefault(s => !taken.Contains(s));
            // A spool without pipe keeps its name or is a new one.
            before ??= spool.Cuts.Count == 0 && old.Spools.Any(s => s.Name == spool.Name && s.Cuts.Count == 0) && !taken.Contains(spool.Name) ? spool.Name : null;
            if (before is not null)
                taken.Add(before);
            changes.Add(new(before, spool.Name, before is null ? [] : Why(before, spool.Name, pieces, parts)));
        }

        changes.AddRange(old.Spools.Where(s => !taken.Contains(s.Name)).Select(s => new SpoolChange(s.Name, null, [])));
        return changes;
    }

    private static List<string> Why(string old, string @new, List<PieceChange> pieces, List<PartChange> parts)
    {
        var why = new List<string>();
        foreach (var piece in pieces)
        {
            var (wasHere, isHere) = (piece.Old?.Spool == old, piece.New?.Spool == @new);
            if (!wasHere && !isHere)
                continue;
            if (wasHere && !isHere)
                why.Add($"{piece.Old!.Piece} is {(piece.New is null ? "gone" : "now " + piece.New.Piece)}");
            else if (!wasHere)
                why.Add($"{piece.New!.Piece} {(piece.Old is null ? "is new" : "was " + piece.Old.Piece)}");
            else if (!piece.IsSame)
                why.Add($"{piece.New!.Piece} is cut differently");
        }

        why.AddRange(parts.Where(p => p.OldSpool(old) || p.NewSpool(@new)).Select(p => $"{p.Says.Name} {p.Says.Kind}").Distinct(StringComparer.Ordinal));
        return why;
    }
}
