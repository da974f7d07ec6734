using System.Text;
using Rootgap.Cutting;

namespace Rootgap.Tests.Cutting;

/// <summary>What stock files say and what is said of them, the good and the bad, word for word: <c>Told/racks.txt</c>.</summary>
public class RacksToldTest
{
    [Fact]
    public void Each_stock_file_is_read_as_it_was_accepted() => Accepted.Told("racks", text =>
    {
        var (rack, errors) = RackReader.Read(Encoding.UTF8.GetBytes(text), text.Contains("length,", StringComparison.OrdinalIgnoreCase) || text.StartsWith("sheet", StringComparison.Ordinal) ? "rack.csv" : "rack.yaml");
        return errors.Select(Accepted.Line).Concat(rack is null ? [] : Said(rack));
    });

    private static IEnumerable<string> Said(Rack rack)
    {
        var r = rack.Rules;
        yield return Text($"  kerf {r.Kerf}, trim {r.EndTrim}, facing {r.FacingLoss}, remnant {r.ShortestRemnant} at {r.RemnantValue}, plans {r.MostPlans}, one heat {r.SpoolFromOneHeat}, short first {r.ShortPiecesFirst}, {r.Units}, {string.Join(' ', r.Order)}");
        foreach (var b in rack.Bars)
            yield return Text($"  {b.Id}: {b.Pipe.Size} {b.Pipe.Schedule} {b.Pipe.Material} {b.Length} x {b.Quantity} left {b.Left} {b.Source} ends {b.MillEnds} heat {b.Heat} cost {b.Cost} {b.Supplier} {b.Certificate} preference {b.Preference}; gone {string.Join(' ', b.Gone)}; {string.Join(' ', b.Names().Take(4))}");
        foreach (var p in rack.PieceRules)
            yield return Text($"  {p.Drawing}/{p.Spool}/{p.Piece}: heat {p.Heat} {p.OneHeat} priority {p.Priority} cut {p.IsCut}");
    }

    private static string Text(FormattableString s) => FormattableString.Invariant(s);
}
