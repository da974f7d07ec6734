using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Checks;

internal sealed class StudLength : Rule
{
    /// <summary>
    /// The table's length is rounded up itself, and what stands between the flanges is added before it is rounded up again: so much of the sum no joint needs, mm
    /// (ASME B16.5 annex C: two lap joints NPS 2 class 150 of schedule 10S take 86, where the sum makes 95 of the table's 85).
    /// </summary>
    private const double RoundedTwice = 5;

    /// <summary>A stud that is longer by more than this stands out of its nuts too far, mm.</summary>
    private const double TooLong = 16;

    public override string Name => "stud-length";
    public override Severity Severity => Severity.Stop;
    public override string Says => "Studs are listed shorter or much longer than the flanges, the gasket and the nuts take.";
    public override string Why => "A short stud does not fill its nut; a long one takes no tensioner and rusts fast (ASME B16.5 tables of stud lengths; full engagement: ASME B31.3 335.2.3).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var materials = fabrication.Route.Drawing.Materials;
        if (materials.Count == 0)
            yield break;
        var studs = new StudRows(materials, fabrication.Bolting);
        HashSet<NominalSize>? strays = null;
        foreach (var item in materials)
        {
            // A row whose length no joint takes is wrong itself.
            if (item.Words.Ware != Ware.StudBolt || studs.IsSettled(item) || studs.Mistaken.Any(m => ReferenceEquals(m.Row, item)) || item.Length is not { } listed || (studs.LeftOverFor(item) ?? ByRank(fabrication.Bolting, materials, item) ?? Nearest(fabrication.Bolting, item.Size, listed)) is not { } set || !IsOff(listed, set))
                continue;
            (strays ??= []).Add(item.Size);
            yield return One(fabrication.Units, item.Source, "length", set, listed);
        }

        HashSet<RowPath>? told = null;
        foreach (var set in fabrication.Bolting)
        {
            if (set.Length <= 0 || studs.IsMistaken(set) || strays?.Contains(set.Size) == true || Nearest(materials, set) is not { Length: { } listed } || !IsOff(listed, set) || !(told ??= []).Add(set.Joint.Source.Path))
                continue;
            yield return One(fabrication.Units, set.Joint.Source, "to", set, listed);
        }
    }

    private Finding One(Units units, SourceRow row, string key, BoltSet set, double listed)
    {
        var off = listed - set.Length;
        return Found(row, key,
            Say(units, $"Joint {set.Joint.Id}, NPS {set.Joint.Size} class {set.Joint.Class}: studs {set.Size} x {set.Length:len0} needed, {listed:len0} listed: {Math.Abs(off):len0} {(off < 0 ? "short" : "too long")}."),
            "List the length that the joint takes.", off < 0 ? "The nuts are not filled." : "The ends stick out of the nuts.", off < 0 ? null : Severity.Warn);
    }

    private static bool IsOff(double listed, BoltSet set) =>
        listed < set.Length - StudRows.OneStep - (set.Joint.ExtraGrip > 0 ? RoundedTwice : 0) || listed > set.Length + TooLong;

    /// <summary>Where as many lengths of a size are listed as joints take, the longest row is meant for the joint that takes the longest, and so on down; null where the numbers differ.</summary>
    private static BoltSet? ByRank(IReadOnlyList<BoltSet> sets, IReadOnlyList<MaterialItem> materials, MaterialItem item)
    {
        var needed = sets.Where(s => s.Size == item.Size && s.Length > 0).GroupBy(s => Math.Round(s.Length)).OrderBy(g => g.Key).Select(g => g.First()).ToList();
        var listed = materials.Where(m => m.Words.Ware == Ware.StudBolt && m.Size == item.Size && m.Length is not null).Select(m => Math.Round(m.Length!.Value)).Distinct().Order().ToList();
        return needed.Count == listed.Count && needed.Count > 1 ? needed[listed.IndexOf(Math.Round(item.Length!.Value))] : null;
    }

    /// <summary>The joint that takes studs of the size nearest in length to the listed ones.</summary>
    private static BoltSet? Nearest(IReadOnlyList<BoltSet> sets, NominalSize size, double listed)
    {
        BoltSet? nearest = null;
        foreach (var set in sets)
        {
            if (set.Size == size && set.Length > 0 && (nearest is null || Math.Abs(set.Length - listed) < Math.Abs(nearest.Length - listed)))
                nearest = set;
        }

        return nearest;
    }

    private static MaterialItem? Nearest(IReadOnlyList<MaterialItem> materials, BoltSet set)
    {
        MaterialItem? nearest = null;
        foreach (var item in materials)
        {
            if (item.Words.Ware == Ware.StudBolt && item.Size == set.Size && item.Length is { } length && (nearest is null || Math.Abs(length - set.Length) < Math.Abs(nearest.Length!.Value - set.Length)))
                nearest = item;
        }

        return nearest;
    }
}
