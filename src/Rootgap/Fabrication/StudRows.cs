using Rootgap.Drawings;
using Rootgap.Measure;

namespace Rootgap.Fabricating;

/// <summary>Which row of the material list a set of studs is: all that is asked about it is asked here.</summary>
public static class StudRows
{
    /// <summary>Lengths that differ by less are the same, mm.</summary>
    private const double Same = 1;

    /// <summary>The row of a set's diameter nearest in length, but for the one row that is left over for it; null where the list has none.</summary>
    public static MaterialItem? Of(IReadOnlyList<MaterialItem> list, IReadOnlyList<BoltSet> bolting, BoltSet set) =>
        OtherDiameter(list, bolting).FirstOrDefault(o => o.Needed == set.Size && Math.Abs(o.Length - set.Length) < Same) is { Row: { } wrong } ? wrong
        : LeftOver(list, bolting, set.Size) is var (length, row) && Math.Abs(length - set.Length) < Same ? row
        : list.Where(m => m.Words.Ware == Ware.StudBolt && m.Size == set.Size).MinBy(m => Math.Abs((m.Length ?? set.Length) - set.Length));

    /// <summary>Rows that no joint of their diameter takes, and whose length and number are those of joints of another diameter that have no row: the diameter was mistaken.</summary>
    public static IEnumerable<(MaterialItem Row, NominalSize Needed, double Length)> OtherDiameter(IReadOnlyList<MaterialItem> list, IReadOnlyList<BoltSet> bolting)
    {
        foreach (var row in list)
        {
            if (row is not { Words.Ware: Ware.StudBolt, Length: { } length, Count: { } count, Size.IsNone: false } || bolting.Any(b => b.Size == row.Size && Math.Abs(b.Length - length) < Same))
                continue;
            var needed = bolting.Where(b => b.Size != row.Size && Math.Abs(b.Length - length) < Same).GroupBy(b => b.Size)
                .FirstOrDefault(g => g.Sum(b => b.Count) == count && !list.Any(m => m.Words.Ware == Ware.StudBolt && m.Size == g.Key && m.Length is { } other && Math.Abs(other - length) < Same));
            if (needed is not null)
                yield return (row, needed.Key, needed.First().Length);
        }
    }

    /// <summary>
    /// Where every other length of a diameter has its row with the very number that the joints take, and one length and one row of the same number are left: the two, which
    /// belong together however wrong the row's length is. Null where it is not so clear.
    /// </summary>
    public static (double Length, MaterialItem Row)? LeftOver(IReadOnlyList<MaterialItem> list, IReadOnlyList<BoltSet> bolting, NominalSize size)
    {
        var needed = bolting.Where(b => b.Size == size && b.Length > 0).GroupBy(b => Math.Round(b.Length)).Select(g => (g.First().Length, Count: g.Sum(b => b.Count))).ToList();
        var rows = list.Where(m => m.Words.Ware == Ware.StudBolt && m.Size == size && m is { Length: not null, Count: not null }).ToList();
        if (needed.Count < 2 || rows.Count != needed.Count)
            return null;
        foreach (var row in rows.ToList())
        {
            var at = needed.FindIndex(n => Math.Abs(n.Length - row.Length!.Value) < Same && n.Count == row.Count);
            if (at < 0)
                continue;
            needed.RemoveAt(at);
            rows.Remove(row);
        }

        return (needed, rows) is ([var length], [var left]) && left.Count == length.Count ? (length.Length, left) : null;
    }
}
