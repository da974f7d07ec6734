using System.Globalization;
using Rootgap.Cutting;

namespace Rootgap.Records;

/// <summary>A bar of a stock file from which a piece may be cut next, as the job's facts leave it.</summary>
/// <param name="Bar">Its mark: R3, R1#2.</param>
/// <param name="Source">What it is: on hand, a remnant, to be bought.</param>
/// <param name="Left">Of the bar, mm.</param>
/// <param name="Heat">Found on it, or in the stock file; empty where neither is known.</param>
/// <param name="To">Where the piece would be cut off, mm from the bar's measuring end.</param>
public sealed record BarOffer(string Bar, StockSource Source, double Left, string Heat, double To)
{
    /// <summary>Bars of one row that are offered: those that are begun, and so many that are not.</summary>
    private const int MostNew = 3;

    /// <summary>The bars that are long enough and of the pipe: what the shop has before what it buys, and of these the one with the least left first.</summary>
    /// <param name="told">What is told of the saw: <see cref="SawFacts.Of"/>.</param>
    public static IReadOnlyList<BarOffer> Of(Rack rack, IReadOnlyList<SawnBar> told, Piece piece)
    {
        var (pipe, length) = (piece.Pipe, piece.Length + (piece.FacedEnds * rack.Rules.FacingLoss));
        var known = told.Where(b => b.Name.Length > 0).ToDictionary(b => b.Name, StringComparer.OrdinalIgnoreCase);
        List<BarOffer> offers = [];
        foreach (var row in rack.Bars.Where(r => r.Pipe.Size == pipe.Size && r.Pipe.Schedule == pipe.Schedule && (pipe.Material.Length == 0 || r.Pipe.Material == pipe.Material)))
        {
            var fresh = 0;
            for (var n = 1; n <= (row.Quantity ?? int.MaxValue) && fresh < MostNew; n++)
            {
                var name = row.Quantity == 1 ? row.Id : string.Create(CultureInfo.InvariantCulture, $"{row.Id}#{n}");
                if (rack.RowOfBar(name) is null)
                    continue;
                var bar = known.GetValueOrDefault(name);
                if (bar is null)
                    fresh++;
                if (bar is { IsOut: true })
                    continue;
                var gone = bar?.Gone ?? 0;
                var to = gone + (gone > 0 ? rack.Rules.Kerf : row.Source == StockSource.Remnant ? 0 : rack.Rules.EndTrim) + length;
                if (to <= row.Length + SawLog.SameLength)
                    offers.Add(new(name, row.Source, row.Length - gone, bar is { Heat.Length: > 0 } ? bar.Heat : row.Heat, to));
            }
        }

        return [.. offers.OrderBy(o => o.Source == StockSource.Buy).ThenBy(o => o.Left).ThenBy(o => o.Bar, StringComparer.OrdinalIgnoreCase)];
    }
}
