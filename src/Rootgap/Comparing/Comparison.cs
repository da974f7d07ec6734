using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Comparing;

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
public sealed record Difference(string Kind, string Name, string Says)
{
    /// <summary>Id that the component or joint has in the new drawing; null where it has none there, or is neither.</summary>
    public string? Part { get; init; }
}

/// <summary>What a spool of the new drawing is beside the old one's.</summary>
/// <param name="Old">Name in the old drawing; null where the spool is new.</param>
/// <param name="New">Name in the new drawing; null where the spool is gone.</param>
/// <param name="Why">What touches it, in words; empty where it is untouched.</param>
public sealed record SpoolChange(string? Old, string? New, IReadOnlyList<string> Why)
{
    public bool IsTouched => Old is null || New is null || Why.Count > 0;
}

/// <summary>What a part, a piece or a joint of the old drawing is in the new one.</summary>
/// <param name="Now">Its name there; null where it is gone.</param>
/// <param name="Why">Why it is not the same steel any more, in words; empty where it is.</param>
public sealed record Whereabouts(string? Now, IReadOnlyList<string> Why)
{
    public static readonly Whereabouts Gone = new(null, []);

    public bool IsSame => Now is not null && Why.Count == 0;
}

/// <summary>What changed between two versions of a drawing, in the trade's terms. Runs, names and the order of writing do not count: only steel does.</summary>
public sealed class Comparison
{
    /// <summary>Two lengths within this are one, mm: what a shop saws to (common practice).</summary>
    public const double SameLength = 1;

    private readonly Steel before;
    private readonly Steel after;
    private readonly SteelMap map;
    private readonly SteelTurns turns;
    private readonly SupportChanges supports;

    private Comparison(Fabrication old, Fabrication @new)
    {
        (before, after) = (new(old), new(@new));
        map = new(before, after);
        turns = new(before, after, map);
        Pieces = PiecesOf();
        var components = Changes.Components(before, after, map);
        var joints = Changes.Joints(before, after, map, turns);
        Components = [.. components.Select(c => c.Says)];
        Joints = [.. joints.Select(j => j.Says)];
        supports = new(before, after, map);
        Supports = [.. supports.Said.Select(s => s.Says)];
        Items = Changes.Items(Old, New);
        Ends = Changes.Ends(before, after, map);
        Spools = SpoolPairs.Of(before, after, map, turns, Pieces, [.. components, .. joints, .. supports.Said]);
    }

    public Drawing Old => before.Made.Route.Drawing;

    public Drawing New => after.Made.Route.Drawing;

    /// <summary>Every piece of either, in the order of the new line, those that are gone last.</summary>
    public IReadOnlyList<PieceChange> Pieces { get; }

    public IReadOnlyList<Difference> Joints { get; }

    public IReadOnlyList<Difference> Components { get; }

    /// <summary>Supports that were added, taken out, moved or made otherwise.</summary>
    public IReadOnlyList<Difference> Supports { get; }

    public IReadOnlyList<Difference> Items { get; }

    public IReadOnlyList<SpoolChange> Spools { get; }

    /// <summary>Ends of the line that stand elsewhere.</summary>
    public IReadOnlyList<Difference> Ends { get; }

    /// <summary>Nothing differs that is made of steel, stands on the list or fixes the line in the plant; the revision may.</summary>
    public bool IsSame => Pieces.All(p => p.IsSame) && Joints.Count == 0 && Components.Count == 0 && Supports.Count == 0 && Items.Count == 0 && Ends.Count == 0 && Spools.All(s => !s.IsTouched);

    public static Comparison Of(Fabrication old, Fabrication @new) => new(old, @new);

    /// <summary>What a piece is now, by its mark; null where the old drawing has no such piece.</summary>
    public Whereabouts? OfPiece(string mark)
    {
        if (Pieces.FirstOrDefault(p => p.Old?.Piece.Equals(mark, StringComparison.OrdinalIgnoreCase) == true) is not { Old: { } old } change)
            return null;
        if (change.New is not { } now)
            return Whereabouts.Gone;
        return new(now.Piece, change.IsSame ? [] : [.. Length(), .. change.Differences]);

        IEnumerable<string> Length()
        {
            if (Math.Abs(change.By) > SameLength)
                yield return $"{Figure(old.SawLength)} is now {Figure(now.SawLength)}";
        }
    }

    /// <summary>What a component is now, by its id; null where the old drawing has no such component.</summary>
    public Whereabouts? OfComponent(string id)
    {
        if (before.Made.Route.ComponentOf(id) is not { } component)
            return null;
        var part = before.Of(component.Id);
        return map.Of(part) is { } now ? new(now.Id, Steel.Differences(part, now)) : Whereabouts.Gone;
    }

    /// <summary>What a part is now that a reading names: a component's or a pipe's id; null where it is gone or was never there.</summary>
    public string? PartNow(string id) => before.Parts.Find(p => p.Id == id) is { } part ? map.Of(part)?.Id : null;

    /// <summary>What a joint is now, by its id; null where the old drawing has no such joint. It is the same where both its sides are, and stand to each other as before.</summary>
    public Whereabouts? OfJoint(string id)
    {
        if (before.Made.Route.Joints.FirstOrDefault(j => j.Id.Equals(id, StringComparison.OrdinalIgnoreCase)) is not { } joint)
            return supports.OfWeld(id);
        if (map.Of(joint) is not { } now)
            return Whereabouts.Gone;
        List<string> why = [];
        foreach (var side in joint.Between.Select(before.Of))
            why.AddRange(WhyNot(side).Select(w => $"{side.Cut?.Piece ?? side.Id}: {w}"));
        if (joint.Size != now.Size)
            why.Add($"NPS {joint.Size} is now NPS {now.Size}");
        if (joint.Class != now.Class)
            why.Add($"class {joint.Class} is now {now.Class}");
        if (turns.Of(joint) is { } turned)
            why.Add(turned);
        return new(now.Id, why);
    }

    private IEnumerable<string> WhyNot(SteelPart part) => (part.Cut is { } cut ? OfPiece(cut.Piece) : OfComponent(part.Id))!.Why;

    internal PipeShape ShapeOfOld(string mark, double? length) => PipeShape.Of(before, before.Parts.First(p => p.Cut?.Piece == mark), length);

    internal PipeShape ShapeOfNew(Cut cut) => PipeShape.Of(after, after.Of(cut.Pipe.Id));

    /// <summary>The joint at an end of a piece of the old drawing, by its id; null where nothing is joined to it.</summary>
    public string? JointAt(string mark, bool atStart) =>
        before.Made.Cuts.FirstOrDefault(c => c.Piece.Equals(mark, StringComparison.OrdinalIgnoreCase)) is { } cut ? EndOf(cut, atStart)?.Joint?.Id : null;

    /// <summary>What a change makes of the length of a piece that is cut, in words; null where its place is gone or as long as before.</summary>
    /// <param name="length">What was cut, mm.</param>
    public string? LengthNow(string mark, double length) =>
        Pieces.FirstOrDefault(p => p.Old?.Piece.Equals(mark, StringComparison.OrdinalIgnoreCase) == true)?.New is { } now && Math.Abs(now.SawLength - length) > SameLength
            ? $"cut at {Figure(length)}; this makes it {Figure(now.SawLength)}"
            : null;

    /// <summary>A length in the new drawing's units.</summary>
    internal string Figure(double mm) => LengthText.In(New.Units, mm);

    /// <summary>What stands at the start or the end of a piece of the old drawing, in words, such as <c>W3 (elbow)</c>.</summary>
    internal string EndInWords(Cut old, bool atStart)
    {
        if (EndOf(old, atStart) is not { Joint: { } joint, Other: var other })
            return atStart ? "its start" : "its free end";
        return other is null ? joint.Id : $"{joint.Id} ({(other.Component is { } c ? c.Name : other.Cut!.Piece)})";
    }

    private Link? EndOf(Cut old, bool atStart)
    {
        var part = before.Of(old.Pipe.Id);
        var (at, outward) = atStart ? (old.Pipe.Start, -old.Pipe.Direction) : (old.Pipe.End, old.Pipe.Direction);
        foreach (var link in part.Links)
        {
            if (link.Joint is { } joint && Steel.Looks(part, joint).Dot(outward) > 0.9 && joint.At.To(at) < old.Pipe.Outside)
                return link;
        }

        return null;
    }

    private List<PieceChange> PiecesOf()
    {
        List<PieceChange> changes = [];
        foreach (var cut in after.Made.Cuts)
        {
            var part = after.Of(cut.Pipe.Id);
            var was = map.Before(part);
            changes.Add(new(was?.Cut, cut, was is null ? [] : PipeDifferences(was, part)));
        }

        changes.AddRange(before.Made.Cuts.Where(c => map.Of(before.Of(c.Pipe.Id)) is null).Select(c => new PieceChange(c, null, [])));
        return changes;
    }

    /// <summary>What differs between two pieces besides their length.</summary>
    private List<string> PipeDifferences(SteelPart was, SteelPart part)
    {
        var (o, n) = (was.Cut!, part.Cut!);
        var differences = Steel.OtherPipe(was, part).ToList();
        var (a, b) = (PipeShape.Of(before, was), PipeShape.Of(after, part));
        if (!a.HasEndsOf(b))
        {
            if (a.Start != b.Start)
                differences.Add($"{o.AtStart.Word} end is now {n.AtStart.Word}");
            if (a.End != b.End)
                differences.Add($"{o.AtEnd.Word} end is now {n.AtEnd.Word}");
        }

        if (!a.HasHolesOf(b))
            differences.Add($"holes {a.SaysHoles} are now {b.SaysHoles}");
        return differences;
    }
}
