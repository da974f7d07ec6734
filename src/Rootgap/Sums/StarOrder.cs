using System.Globalization;
using Rootgap.Standards;

namespace Rootgap.Sums;

/// <summary>
/// The order in which the nuts of a flange are drawn up: across, then square to that, then the next four. Holes are numbered round the flange, clockwise from the one right of the top.
/// </summary>
public static class StarOrder
{
    private const int Most = 100;

    private const string Table = "bolt-order";

    /// <summary>The fours of a flange in the order in which they are drawn up, each by its lowest hole; empty where no table has so many bolts.</summary>
    private static List<StandardRow> Fours(int bolts) => [.. StandardTable.Rows(Table).Where(r => r.Item == string.Create(CultureInfo.InvariantCulture, $"star order of {bolts}"))];

    /// <summary>Whether a count of bolts has an order: multiples of four, up to 100.</summary>
    public static bool Has(int bolts) => bolts is >= 4 and <= Most && bolts % 4 == 0;

    /// <summary>The numbers of the holes in the order of tightening.</summary>
    /// <exception cref="ArgumentOutOfRangeException">There is no order for so many: ask <see cref="Has"/> first.</exception>
    public static IReadOnlyList<int> Of(int bolts)
    {
        if (!Has(bolts))
            throw new ArgumentOutOfRangeException(nameof(bolts));
        var (half, quarter) = (bolts / 2, bolts / 4);
        var known = Fours(bolts);
        int[] fours = known.Count > 0 ? [.. known.Select(r => (int)r.Figure)] : quarter % 2 == 0
            ? [.. Enumerable.Range(1, quarter / 2).SelectMany(k => new[] { k, k + (quarter / 2) })]
            : [.. Enumerable.Range(0, (quarter + 1) / 2).Select(k => (2 * k) + 1), .. Enumerable.Range(1, quarter / 2).Select(k => 2 * k)];
        return [.. fours.SelectMany(k => new[] { k, k + half, k + quarter, k + half + quarter })];
    }

    /// <summary>Where the order comes from.</summary>
    public static string Source(int bolts) => Fours(bolts) is [var row, ..]
        ? $"opposite bolts by fours; {row.Source}"
        : "opposite bolts by fours; no order of so many single bolts was found: the program's own rule, every other four and then those between. Many bolts may be drawn up in groups where the bolting procedure says so (ASME PCC-1)";

    /// <summary>The passes: how much of the torque, and in which order.</summary>
    public static IReadOnlyList<(string Name, double? Share, bool IsStar)> Passes { get; } =
    [
        ("hand-tight, faces seen parallel", null, true),
        ("30 %", 0.3, true),
        ("60 %", 0.6, true),
        ("100 %", 1, true),
        ("100 % round and round, until no nut turns", 1, false),
        ("100 % round again after four hours at least", 1, false),
    ];

    /// <summary>Where the passes come from.</summary>
    public const string PassesSource = "gasket makers' and suppliers' pages: 30, 60, 100 % by the star, then round; four hours: from memory of ASME PCC-1. Some published torque tables go 30, 70, 100: the bolting procedure decides";
}
