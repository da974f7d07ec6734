using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.Checks;

/// <summary>Two butt welds on one short piece of pipe.</summary>
internal sealed class WeldsTooClose : Rule
{
    private const double Least = 50;

    public override string Name => "welds-too-close";
    public override Severity Severity => Severity.Warn;
    public override string Says => "Two butt welds stand closer than the shop's `weld spacing`: a warning where the shop states one, a note for the usual one outside diameter (at least 50 mm).";
    public override string Why => "Their heats overlap and there is no room for a clamp or for examination. The codes give no figure; one outside diameter, at least 50 mm, is common practice.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var shop = fabrication.Route.Drawing.Shop;
        foreach (var cut in fabrication.Cuts)
        {
            var pipe = cut.Pipe;
            if (!pipe.AtStart.IsButt || !pipe.AtEnd.IsButt)
                continue;
            var apart = cut.Length - cut.Extra - cut.Allowance + shop.RootGap;
            var limit = shop.WeldSpacing ?? Math.Max(Least, pipe.Outside);
            // A piece under the shop's shortest is another rule's matter.
            if (apart >= limit - Tolerance.Noise || apart - shop.RootGap < shop.ShortestPipe - Tolerance.Noise)
                continue;
            yield return Found(fabrication.Route.RowOf(pipe.Run, pipe.LastLeg), "by", Say(fabrication.Units, $"The two welds of piece {cut.Piece} stand {apart:len} apart; {(shop.WeldSpacing is not null ? "the shop wants" : pipe.Outside < Least ? "usual is at least" : "one outside diameter is")} {limit:len}: {limit - apart:len} too close."),
                "Ask for a longer dimension, or make the fittings up directly with `by: makeup`.", severity: shop.WeldSpacing is null ? Severity.Note : Severity.Warn);
        }
    }
}
