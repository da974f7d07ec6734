using Rootgap.Drawings;
using Rootgap.Measure;

namespace Rootgap.Fabricating;

/// <summary>Which row of the material list a set of studs is: all that is asked about it is asked here.</summary>
public sealed class StudRows
{
    /// <summary>Lengths that differ by less are the same, mm.</summary>
    internal const double Same = 1;

    /// <summary>Studs come in steps of about 5 mm or a quarter inch, and tables differ by one step, mm.</summary>
    internal const double OneStep = 9;

    /// <summary>A row that differs by more is no table's other rounding of the joint's length, mm.</summary>
    private const double Near = 16;

    private readonly IReadOnlyList<MaterialItem> rows;
    private readonly List<(MaterialItem Row, IReadOnlyList<BoltSet> Sets)> leftOver = [];
    private readonly List<(MaterialItem Row, IReadOnlyList<BoltSet> Sets)> sharedOut = [];

    public StudRows(IReadOnlyList<MaterialItem> list, IReadOnlyList<BoltSet> bolting)
    {
        rows = [.. list.Where(m => m.Words.Ware == Ware.StudBolt)];
        Mistaken = [.. OtherDiameter(bolting)];
        foreach (var ofSize in bolting.Where(b => b.Length > 0).GroupBy(b => b.Size))
        {
            if (LeftOver([.. ofSize]) is { } pair)
                leftOver.Add(pair);
            else
                sharedOut.AddRange(SharedOut([.. ofSize]));
        }
    }

    /// <summary>Rows that no joint of their diameter takes, with the joints of another diameter that have no row and take just this length and number: the diameter was mistaken.</summary>
    public IReadOnlyList<(MaterialItem Row, IReadOnlyList<BoltSet> Sets)> Mistaken { get; }

    /// <summary>Whether a set's row has another diameter.</summary>
    public bool IsMistaken(BoltSet set) => Mistaken.Any(m => Has(m.Sets, set));

    /// <summary>
    /// The row of a set: the one in which its diameter was mistaken, the one that is left over for it, the one to which length and number point, or else of its diameter the
    /// nearest in length; null where the list has none.
    /// </summary>
    public MaterialItem? Of(BoltSet set) => Mistaken.Concat(leftOver).Concat(sharedOut).FirstOrDefault(p => Has(p.Sets, set)).Row ?? Nearest(set);

    /// <summary>The joints for which a row is left over, where all others have theirs; null where it is not so clear.</summary>
    public BoltSet? LeftOverFor(MaterialItem row) => leftOver.Find(p => ReferenceEquals(p.Row, row)).Sets?[0];

    /// <summary>Whether a row has just the joints that its length and number say, while another row of its diameter is the one that is off.</summary>
    public bool IsSettled(MaterialItem row) => leftOver.Exists(p => p.Row.Size == row.Size && !ReferenceEquals(p.Row, row));

    private MaterialItem? Nearest(BoltSet set) => rows.Where(m => m.Size == set.Size).MinBy(m => Math.Abs((m.Length ?? set.Length) - set.Length));

    private static bool Has(IReadOnlyList<BoltSet> sets, BoltSet set) => sets.Any(s => ReferenceEquals(s, set));

    private static bool AreSame(double a, double? b) => b is { } other && Math.Abs(a - other) < Same;

    private IEnumerable<(MaterialItem Row, IReadOnlyList<BoltSet> Sets)> OtherDiameter(IReadOnlyList<BoltSet> bolting)
    {
        foreach (var row in rows)
        {
            if (row is not { Length: { } length, Count: { } count, Size.IsNone: false } || bolting.Any(b => b.Size == row.Size && AreSame(b.Length, length)))
                continue;
            if (bolting.Where(b => b.Size != row.Size && AreSame(b.Length, length)).GroupBy(b => b.Size)
                .FirstOrDefault(g => g.Sum(b => b.Count) == count && !rows.Any(m => m.Size == g.Key && AreSame(length, m.Length))) is { } sets)
                yield return (row, [.. sets]);
        }
    }

    /// <summary>
    /// Where every other length of a diameter has its row with the very number that the joints take, and one length and one row of the same number are left: the two, which
    /// belong together however wrong the row's length is.
    /// </summary>
    private (MaterialItem, IReadOnlyList<BoltSet>)? LeftOver(IReadOnlyList<BoltSet> ofSize)
    {
        var needed = ofSize.GroupBy(b => Math.Round(b.Length)).Select(g => g.ToList()).ToList();
        var listed = rows.Where(m => m.Size == ofSize[0].Size && m is { Length: not null, Count: not null }).ToList();
        if (needed.Count < 2 || listed.Count != needed.Count)
            return null;
        // The number and the length both say it; the length within what tables differ by.
        foreach (var row in listed.OrderBy(m => needed.Min(n => Math.Abs(n[0].Length - m.Length!.Value))).ToList())
        {
            var at = needed.FindIndex(n => Math.Abs(n[0].Length - row.Length!.Value) < OneStep && n.Sum(b => b.Count) == row.Count);
            if (at < 0)
                continue;
            needed.RemoveAt(at);
            listed.Remove(row);
        }

        return (needed, listed) is ([var sets], [var left]) && sets.Sum(b => b.Count) == left.Count ? (left, sets) : null;
    }

    /// <summary>
    /// Where the office's lengths are another rounding than the table's, so that the nearest row would be the wrong one: the longest row is that of the longest joints, and so on
    /// down, if each row is just filled by whole joints. None where the nearest rows have the right numbers, or where it is not so clear.
    /// </summary>
    private List<(MaterialItem Row, IReadOnlyList<BoltSet> Sets)> SharedOut(IReadOnlyList<BoltSet> ofSize)
    {
        var listed = rows.Where(m => m.Size == ofSize[0].Size).ToList();
        if (listed.Count < 2 || listed.Exists(m => m is not { Length: not null, Count: not null }) || listed.Sum(m => m.Count) != ofSize.Sum(b => b.Count)
            || listed.TrueForAll(m => ofSize.Where(b => ReferenceEquals(Nearest(b), m)).Sum(b => b.Count) == m.Count))
            return [];
        var sets = new Queue<BoltSet>(ofSize.OrderBy(b => b.Length));
        var shared = new List<(MaterialItem, IReadOnlyList<BoltSet>)>();
        foreach (var row in listed.OrderBy(m => m.Length))
        {
            var its = new List<BoltSet>();
            while (its.Sum(b => b.Count) < row.Count)
                its.Add(sets.Dequeue());
            if (its.Sum(b => b.Count) != row.Count || its.Exists(b => Math.Abs(b.Length - row.Length!.Value) > Near))
                return [];
            shared.Add((row, its));
        }

        return shared;
    }
}
