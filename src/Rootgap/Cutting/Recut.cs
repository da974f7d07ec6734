using System.Text.Json;

namespace Rootgap.Cutting;

/// <summary>
/// Goes on from a plan that is half cut: what was cut stays, a spoiled piece is wanted again, and the rest of each bar begun is stock like any
/// other. Made from the plan as it was written (cut.json), so that any machine can do it.
/// </summary>
/// <param name="Pieces">What is still to be cut.</param>
/// <param name="Rack">The rack with the bars that were begun as they now are.</param>
public sealed record Recut(IReadOnlyList<Piece> Pieces, Rack Rack)
{
    /// <summary>Marks that the plan does not know.</summary>
    public IReadOnlyList<string> Unknown { get; init; } = [];

    /// <summary>What is left of the job.</summary>
    /// <param name="plan">The earlier plan, cut.json.</param>
    /// <param name="pieces">All pieces of the job.</param>
    /// <param name="rack">The rack as it was before the earlier plan.</param>
    /// <param name="cut">Marks of pieces that are cut and good: "1-A", or "DRAWING 1-A" where two drawings use the mark.</param>
    /// <param name="spoiled">Marks of pieces that were cut and spoiled.</param>
    /// <exception cref="FormatException">The plan cannot be read.</exception>
    public static Recut After(string plan, IReadOnlyList<Piece> pieces, Rack rack, IReadOnlyCollection<string> cut, IReadOnlyCollection<string> spoiled)
    {
        var bars = Read(plan);
        var unknown = cut.Concat(spoiled).Where(mark => !bars.Exists(b => b.Pieces.Exists(p => Is(p, mark)))).ToList();
        var used = new Dictionary<string, int>(StringComparer.OrdinalIgnoreCase);
        var begun = new List<StockBar>();
        var done = new HashSet<string>(StringComparer.Ordinal);
        foreach (var bar in bars)
        {
            // All up to the last cut piece is gone, whatever stands before it in the plan and was not cut.
            double gone = 0;
            foreach (var piece in bar.Pieces)
            {
                var isCut = cut.Any(m => Is(piece, m));
                if (isCut || spoiled.Any(m => Is(piece, m)))
                    gone = Math.Max(gone, piece.To);
                if (isCut && !spoiled.Any(m => Is(piece, m)))
                    done.Add(piece.FullName);
            }

            if (gone <= 0)
                continue;
            used[bar.Stock] = used.GetValueOrDefault(bar.Stock) + 1;
            if (rack.Bars.FirstOrDefault(b => b.Id.Equals(bar.Stock, StringComparison.OrdinalIgnoreCase)) is not { } row)
                throw new FormatException($"the plan cuts from bar {bar.Stock}, and the stock file has no such bar: give the stock file that the plan was made from.");
            var left = row.Length - gone - rack.Rules.Kerf;
            if (0 < left)
                begun.Add(row with { Id = $"{bar.Name} rest", Length = left, Quantity = 1, Source = StockSource.Begun });
        }

        var rows = rack.Bars.Select(b => b.Quantity is { } q ? b with { Quantity = Math.Max(0, q - used.GetValueOrDefault(b.Id)) } : b);
        return new Recut([.. pieces.Where(p => !done.Contains(p.FullName))], rack with { Bars = [.. begun, .. rows] }) { Unknown = unknown };
    }

    private sealed record CutPiece(string Id, string Drawing, double To)
    {
        public string FullName => Drawing.Length == 0 ? Id : $"{Drawing} {Id}";
    }

    private static bool Is(CutPiece piece, string mark) =>
        mark.Equals(piece.Id, StringComparison.OrdinalIgnoreCase) || mark.Equals(piece.FullName, StringComparison.OrdinalIgnoreCase);

    private static List<(string Stock, string Name, List<CutPiece> Pieces)> Read(string plan)
    {
        try
        {
            using var document = JsonDocument.Parse(plan);
            var bars = new List<(string, string, List<CutPiece>)>();
            foreach (var group in document.RootElement.GetProperty("groups").EnumerateArray())
            {
                foreach (var bar in group.GetProperty("bars").EnumerateArray())
                {
                    var stock = bar.GetProperty("stock").GetString() ?? "";
                    var pieces = bar.GetProperty("pieces").EnumerateArray()
                        .Select(p => new CutPiece(p.GetProperty("piece").GetString() ?? "", p.GetProperty("drawing").GetString() ?? "", p.GetProperty("to").GetDouble())).ToList();
                    bars.Add((stock, bar.TryGetProperty("bar", out var name) ? name.GetString() ?? stock : stock, pieces));
                }
            }

            return bars;
        }
        catch (Exception e) when (e is JsonException or KeyNotFoundException or InvalidOperationException)
        {
            throw new FormatException($"this is no cutting plan (cut.json): {e.Message}", e);
        }
    }
}
