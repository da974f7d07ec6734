using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Fabricating;

/// <summary>One row of the material check: listed against needed.</summary>
public sealed record MaterialRow
{
    /// <summary>The list's row; null where the drawing needs something that is not listed.</summary>
    public required MaterialItem? Item { get; init; }

    public required string What { get; init; }

    public NominalSize Size { get; init; }

    public NominalSize Size2 { get; init; }

    /// <summary>Of what has no row of its own, a nipple or studs: its length, mm; null for all else.</summary>
    public double? Length { get; init; }

    /// <summary>Pipe is measured in metres, all else is counted.</summary>
    public required bool IsLength { get; init; }

    /// <summary>Metres or pieces; null where the list gives no quantity.</summary>
    public double? Listed { get; init; }

    /// <summary>Metres or pieces.</summary>
    public double Needed { get; init; }

    /// <summary>Ids of the components and pipes that are this item, in line order.</summary>
    public required IReadOnlyList<string> UsedBy { get; init; }

    /// <summary>The drawing does not say that these are this item: it was found by kind, size and rating.</summary>
    public bool IsGuess { get; init; }

    /// <summary>Where the row and the drawing do not agree, in words.</summary>
    public IReadOnlyList<string> Disagreements { get; init; } = [];

    public double? Difference => Listed is { } listed ? listed - Needed : null;
}

/// <summary>Needed against listed, item by item.</summary>
internal static class MaterialCheck
{
    /// <summary>Bolts whose length is within this of the table's count as the same, mm.</summary>
    internal const double StudLength = 6;

    public static List<MaterialRow> Of(Route route, List<Cut> cuts, List<BoltSet> bolting)
    {
        var uses = new List<Use>();
        foreach (var cut in cuts)
        {
            var p = cut.Pipe;
            uses.Add(new(p.Item, p.Name, p.Size, default, p.Nipple is null ? Math.Max(0, cut.SawLength) / 1000 : 1, IsLength: p.Nipple is null, p.Id, p.IsItemGuessed) { Part = p, Length = p.Nipple });
        }

        foreach (var c in route.Components)
        {
            uses.Add(c is MadeBend bend
                ? new(c.Item, "pipe", c.Size, default, bend.PipeLength / 1000, IsLength: true, c.Id, c.IsItemGuessed) { Part = c }
                : new(c.Item, c.Name, c.Size, c.Size2, 1, IsLength: false, c.Id, c.IsItemGuessed) { Part = c });
        }

        foreach (var s in route.Supports)
            uses.Add(new(s.Item, s.Name, s.Size, default, 1, IsLength: false, s.Id, s.IsItemGuessed) { Part = s });
        foreach (var c in route.Components.OfType<Flange>().Where(c => c.Stub is not null))
            uses.Add(new(Row(route, Ware.StubEnd, c.Size), "stub end", c.Size, default, 1, IsLength: false, c.Id, IsGuess: true));
        foreach (var p in route.Pads)
            uses.Add(new(p.Item, p.Name, p.Size, default, 1, IsLength: false, p.Id, p.IsItemGuessed) { Part = p });

        var studs = new StudRows(route.Drawing.Materials, bolting);
        foreach (var set in bolting)
            uses.Add(new(studs.Of(set), "stud bolt", set.Size, default, set.Count, IsLength: false, set.Joint.Id, IsGuess: true) { Stud = set });
        CutFromStock(route, uses);
        return [.. Listed(route, uses), .. NotListed(route.Drawing.Units, uses)];
    }

    /// <summary>Nipples that have no row of their own, where the list has pipe of their size and wall and enough of it left over: they are cut from that.</summary>
    private static void CutFromStock(Route route, List<Use> uses)
    {
        foreach (var row in route.Drawing.Materials.Where(m => m.Words.Ware == Ware.Pipe))
        {
            var own = uses.FindAll(u => u is { Item: null, Part: PipePiece { Nipple: not null } pipe } && pipe.Size == row.Size && (row.Schedule.Length == 0 || ItemSearch.SameWall(row.Schedule, pipe.Line.Schedule, pipe.Size)));
            var left = Metres(route, row) - uses.Where(u => ReferenceEquals(u.Item, row)).Sum(u => u.Quantity);
            if (own.Count == 0 || left is not { } metres || metres < own.Sum(u => u.Length!.Value) / 1000)
                continue;
            foreach (var use in own)
                uses[uses.IndexOf(use)] = use with { Item = row, Quantity = use.Length!.Value / 1000, IsLength = true, Length = null, IsGuess = true };
        }
    }

    private static double? Metres(Route route, MaterialItem pipe) => (pipe.Quantity ?? (pipe.Count * LengthText.PipeUnit(route.Drawing.Units))) / 1000;

    private sealed record Use(MaterialItem? Item, string What, NominalSize Size, NominalSize Size2, double Quantity, bool IsLength, string Id, bool IsGuess)
    {
        /// <summary>Of a nipple, mm; null for all else.</summary>
        public double? Length { get; init; }

        /// <summary>The part that the row is; null for studs and for what goes with a part.</summary>
        public Part? Part { get; init; }

        public BoltSet? Stud { get; init; }
    }

    private static MaterialItem? Row(Route route, Ware ware, NominalSize size) =>
        route.Drawing.Materials.FirstOrDefault(m => m.Words.Ware == ware && m.Size == size);

    private static IEnumerable<MaterialRow> Listed(Route route, List<Use> uses)
    {
        foreach (var item in route.Drawing.Materials)
        {
            var mine = uses.FindAll(u => ReferenceEquals(u.Item, item));
            var isLength = item.Words.Ware == Ware.Pipe;
            yield return new MaterialRow
            {
                Item = item,
                What = item.What,
                Size = item.Size,
                Size2 = item.Size2,
                IsLength = isLength,
                Listed = isLength ? Metres(route, item) : item.Count,
                Needed = mine.Sum(u => u.Quantity),
                UsedBy = [.. mine.Select(u => u.Id)],
                IsGuess = mine.Any(u => u.IsGuess),
                Disagreements = [.. mine.SelectMany(u => Disagreements(route.Drawing.Units, item, u)).Distinct(StringComparer.Ordinal)],
            };
        }
    }

    // What is ordered by another schedule, class or kind of ends is another thing.
    private static IEnumerable<MaterialRow> NotListed(Units units, List<Use> uses) =>
        from use in uses
        where use.Item is null
        group use by (use.What, use.Size, use.Size2, Length: use.Stud?.Length ?? use.Length ?? 0, use.Part?.DrawnAs, Schedule: use.Part is { IsBySchedule: true } part ? part.Line.Schedule : default, use.Part?.RatingClass, use.Part?.Material) into same
        select new MaterialRow
        {
            Item = null,
            What = same.Key.Length > 0 ? LengthText.Say(units, $"{same.Key.What} x {same.Key.Length:len0}") : same.Key.What,
            Size = same.Key.Size,
            Size2 = same.Key.Size2,
            Length = same.Key.Length > 0 ? same.Key.Length : null,
            IsLength = same.First().IsLength,
            Needed = same.Sum(u => u.Quantity),
            UsedBy = [.. same.Select(u => u.Id)],
        };

    private static IEnumerable<string> Disagreements(Units units, MaterialItem item, Use use)
    {
        if (item.Size != use.Size && !item.Size.IsNone)
            yield return $"size {item.Size} listed, {use.Size} drawn";
        if (use.Stud is { Length: > 0 } set && item.Length is { } length && Math.Abs(length - set.Length) > StudLength)
            yield return LengthText.Say(units, $"{length:len0} long listed, {set.Length:len0} needed");
        if (use.Length is { } nipple && item.Length is { } bought && Math.Abs(bought - nipple) > Tolerance.Closing)
            yield return LengthText.Say(units, $"{bought:len0} long listed, {nipple:len0} drawn");
        if (use.Part is not { } part)
            yield break;
        if (item.Words.Ware != Ware.Other && (item.Words.Ware != part.Ware || part.IsOtherKind(item.Words)))
            yield return $"{item.What} listed, {use.What} drawn";
        if (part.IsBySchedule && item.Schedule.Length > 0 && !ItemSearch.SameWall(item.Schedule, part.Line.Schedule, use.Size))
            yield return $"schedule {item.Schedule} listed, {part.Line.Schedule} drawn";
        if (item.Bore.Length > 0 && !ItemSearch.SameWall(item.Bore, part.Line.Schedule, use.Size))
            yield return $"bored for schedule {item.Bore}, the pipe is {part.Line.Schedule}";
        if (part.RatingClass.Length > 0 && item.Class.Length > 0 && item.Class != part.RatingClass)
            yield return $"class {item.Class} listed, {part.RatingClass} drawn";
        if (part is Flange or Gasket && item.Words.Facing is { } facing && facing != part.Line.Facing)
            yield return $"facing {Words.Of(facing)} listed, {Words.Of(part.Line.Facing)} drawn";
    }
}
