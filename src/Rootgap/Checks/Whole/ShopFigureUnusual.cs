using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>A rule of the shop that is a decimal place off.</summary>
internal sealed class ShopFigureUnusual : Rule
{
    public override string Name => "shop-figure-unusual";
    public override Severity Severity => Severity.Warn;
    public override string Says => "A root gap, hi-lo, saw cut, socket gap, shortest pipe or stock length of the shop's rules that no shop has.";
    public override string Why => "One figure of the shop's rules goes into every piece. Usual: root gap 1 to 6 mm, hi-lo 0.5 to 3, saw cut 0.5 to 6, socket gap 1 to 3, shortest pipe 25 to 500, bars 2 to 18 m (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var shop = fabrication.Route.Drawing.Shop;
        (string Key, double Value, double Least, double Most, bool MayBeNought)[] figures =
        [
            ("root gap", shop.RootGap, 1, 6, true), ("branch gap", shop.BranchRootGap, 1, 6, true), ("hi-lo", shop.HiLo, 0.5, 3, false), ("kerf", shop.Kerf, 0.5, 6, true),
            ("socket gap", shop.SocketGap, 1, 3, true), ("shortest pipe", shop.ShortestPipe, 25, 500, true),
            .. shop.Stock.Select(s => ("stock", s, 2000.0, 18_500.0, false)),
        ];
        foreach (var (key, value, least, most, mayBeNought) in figures)
        {
            if (!shop.Source.Has(key) || (value >= least - Tolerance.Noise && value <= most + Tolerance.Noise) || (mayBeNought && value == 0))
                continue;
            yield return Found(shop.Source, key, Say(fabrication.Units, $"The shop's {key} is {value:small}; {least:small} to {most:small} is usual."), "Look whether the point or the unit slipped; if it is meant, accept this with the reason.", "Every piece is cut wrong by it.");
        }
    }
}
