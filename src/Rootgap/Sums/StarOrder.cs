namespace Rootgap.Sums;

/// <summary>
/// The order in which the nuts of a flange are drawn up: across, then square to that, then the next four. Holes are numbered round the flange, clockwise from the one right of the top.
/// </summary>
public static class StarOrder
{
    /// <summary>Bolts up to which a published or remembered order is kept.</summary>
    private const int Published = 24;

    private const int Most = 100;

    /// <summary>Fours whose order is published or remembered: of twelve in a web article, of four and eight by halving the angle, of 16, 20 and 24 from memory of PCC-1.</summary>
    private static readonly Dictionary<int, int[]> Fours = new()
    {
        [4] = [1],
        [8] = [1, 2],
        [12] = [1, 2, 3],
        [16] = [1, 3, 2, 4],
        [20] = [1, 3, 5, 2, 4],
        [24] = [1, 4, 2, 5, 3, 6],
    };

    /// <summary>Whether a count of bolts has an order: multiples of four, up to 100.</summary>
    public static bool Has(int bolts) => bolts is >= 4 and <= Most && bolts % 4 == 0;

    /// <summary>The numbers of the holes in the order of tightening.</summary>
    /// <exception cref="ArgumentOutOfRangeException">There is no order for so many: ask <see cref="Has"/> first.</exception>
    public static IReadOnlyList<int> Of(int bolts)
    {
        if (!Has(bolts))
            throw new ArgumentOutOfRangeException(nameof(bolts));
        var (half, quarter) = (bolts / 2, bolts / 4);
        var fours = Fours.TryGetValue(bolts, out var known) ? known : quarter % 2 == 0
            ? [.. Enumerable.Range(1, quarter / 2).SelectMany(k => new[] { k, k + (quarter / 2) })]
            : [.. Enumerable.Range(0, (quarter + 1) / 2).Select(k => (2 * k) + 1), .. Enumerable.Range(1, quarter / 2).Select(k => 2 * k)];
        return [.. fours.SelectMany(k => new[] { k, k + half, k + quarter, k + half + quarter })];
    }

    /// <summary>Where the order comes from.</summary>
    public static string Source(int bolts) => bolts switch
    {
        4 or 8 => "opposite bolts, then halve the angle (gasket makers' pages)",
        12 => "opposite bolts by fours (gasket makers' pages; one published order of twelve)",
        <= Published => "opposite bolts by fours; the order of the fours from memory of ASME PCC-1",
        _ => "opposite bolts by fours; no published order was found above 24: the program's own rule, every other four and then those between",
    };

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
