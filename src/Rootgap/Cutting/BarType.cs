using Rootgap.Cutting.Solver;

namespace Rootgap.Cutting;

/// <summary>Bars of one pipe that are alike for the plan.</summary>
internal sealed record BarType(double Length, string Heat, StockSource Source, int MillEnds, decimal Cost, List<StockBar> Rows)
{
    public int Count => Rows.Exists(r => r.Left is null) ? PackingProblem.Plenty : (int)Math.Min(PackingProblem.Plenty - 1, Rows.Sum(r => (long)r.Left!.Value));

    /// <summary>Marks of the bars that are there, each with its row.</summary>
    public IEnumerable<(string Name, StockBar Row)> Names() => Rows.SelectMany(r => r.Names().Select(n => (n, r)));

    /// <summary>The types among the bars of one pipe.</summary>
    /// <param name="heats">Whether the heat matters.</param>
    public static List<BarType> Of(List<StockBar> bars, bool heats) =>
    [
        .. bars
            .Where(b => b.Left is null or > 0)
            .GroupBy(b => (b.Length, Heat: heats ? b.Heat.ToUpperInvariant() : "", b.Source, b.MillEnds, b.Cost, b.Preference))
            .OrderByDescending(g => g.Key.Length).ThenBy(g => g.Key.Heat, StringComparer.Ordinal).ThenBy(g => g.Key.Source).ThenBy(g => g.Key.Cost).ThenBy(g => g.Key.Preference)
            .Select(g => new BarType(g.Key.Length, g.Key.Heat, g.Key.Source, g.Key.MillEnds, CostOf(g.First(), bars), [.. g])),
    ];

    // What a bar costs: a metre's cost as given times its length. Where some rows have a price and this has none, the dearest given; where none has, lengths are compared.
    private static decimal CostOf(StockBar bar, List<StockBar> all)
    {
        var priced = all.Exists(b => b.Cost is not null);
        var metre = (decimal)(bar.Cost ?? all.Max(b => b.Cost) ?? 1);
        return metre * (decimal)bar.Length * (decimal)bar.Preference / (priced ? 1000 : 1);
    }
}
