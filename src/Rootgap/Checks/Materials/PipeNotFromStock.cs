using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

/// <summary>Enough pipe in total, but not in the lengths that the shop buys.</summary>
internal sealed class PipeNotFromStock : Rule
{
    public override string Name => "pipe-not-from-stock";
    public override Severity Severity => Severity.Note;
    public override string Says => "The listed pipe, bought in the shop's longest stock length, is fewer bars than its pieces take when they are put longest first.";
    public override string Why => "The pieces do not share the bars evenly, and the rests are too short (common practice; the cutting plan gives the exact answer).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var shop = fabrication.Route.Drawing.Shop;
        if (shop.Stock.Count == 0)
            yield break;
        var bar = shop.Stock.Max();
        foreach (var row in fabrication.Materials)
        {
            if (!row.IsLength || row.Item is not { } item || row.Listed is not { } listed || row.UsedBy.Count < 2)
                continue;
            var bought = Math.Ceiling(Math.Round(listed * 1000 / bar, 6));
            var pieces = fabrication.Cuts.Where(c => c.Pipe.Item == item).Select(c => Math.Max(0, c.Length) + shop.Kerf).OrderDescending().ToList();
            // An item that no pipe is cut from, or of which the total does not fit, is told by other rules.
            if (pieces.Count == 0 || pieces.Sum() / 1000 > listed || pieces[0] > bar + shop.Kerf)
                continue;
            var rests = new List<double>();
            foreach (var piece in pieces)
            {
                var at = rests.FindIndex(r => r >= piece);
                if (at < 0)
                    rests.Add(bar + shop.Kerf - piece);
                else
                    rests[at] -= piece;
            }

            if (rests.Count <= bought)
                continue;
            yield return Found(item.Source, "quantity", Say(fabrication.Units, $"Item {item.Item}, pipe: {listed:pipe} is {bought:0} bars of {bar:len0}, and the {pieces.Count} pieces take {rests.Count}."),
                "Run the cutting plan, and list whole bars.");
        }
    }
}
