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
    public override string Says => "A root gap, hi-lo, saw cut, tolerance, stand height, bolting figure or another rule of the shop that no shop has.";
    public override string Why => "One figure of the shop's rules goes into every piece. Usual: root gap 1 to 6 mm, hi-lo 0.5 to 3, saw cut 0.5 to 6, socket gap 1 to 3, shortest pipe 25 to 500, bars 2 to 18 m, change of a root gap 0.2 to 3, linear tolerance 0.5 to 15, angular tolerance 0.05 to 1.5 degrees, stands 300 to 2000, pieces on end 300 to 4000, vice 5 to 100 kg, nut factor 0.08 to 0.35 and bolt stress 70 to 1000 MPa (common practice).";

    private const string Remedy = "Look whether the point or the unit slipped; if it is meant, accept this with the reason.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var shop = fabrication.Route.Drawing.Shop;
        (string Key, double Value, double Least, double Most, bool MayBeNought)[] figures =
        [
            ("root gap", shop.RootGap, 1, 6, true), ("branch gap", shop.BranchRootGap, 1, 6, true), ("hi-lo", shop.HiLo, 0.5, 3, false), ("kerf", shop.Kerf, 0.5, 6, true),
            ("socket gap", shop.SocketGap, 1, 3, true), ("shortest pipe", shop.ShortestPipe, 25, 500, true),
            ("gap variation", shop.GapVariation, 0.2, 3, false), ("linear tolerance", shop.LinearTolerance ?? 3, 0.5, 15, false),
            ("stand height", shop.StandHeight, 300, 2000, false), ("on end limit", shop.OnEndLimit, 300, 4000, false),
            .. shop.Stock.Select(s => ("stock", s, 2000.0, 18_500.0, false)),
        ];
        foreach (var (key, value, least, most, mayBeNought) in figures)
        {
            if (!shop.Source.Has(key) || (value >= least - Tolerance.Noise && value <= most + Tolerance.Noise) || (mayBeNought && value == 0))
                continue;
            yield return Found(shop.Source, key, Say(fabrication.Units, $"The shop's {key} is {value:small}; {least:small} to {most:small} is usual."), Remedy, "Every piece is cut wrong by it.");
        }

        (string Key, double? Value, double Least, double Most, Func<double, string> Words)[] others =
        [
            ("angular tolerance", shop.AngularTolerance is { } angle ? Angles.ToDegrees(angle) : null, 0.05, 1.5, v => Say($"{v} degrees")), ("vice limit", shop.ViceLimit, 5, 100, v => Say(fabrication.Units, $"{v:kg}")),
            ("bolting", shop.Bolting?.NutFactor, 0.08, 0.35, v => Say($"{v} as nut factor")), ("bolting", shop.Bolting?.Stress, 70, 1000, v => Amount.Say(Quantity.Stress, v, fabrication.Units) + " as bolt stress"),
        ];
        foreach (var (key, value, least, most, words) in others)
        {
            if (value is { } figure && shop.Source.Has(key) && (figure < least - Tolerance.Noise || figure > most + Tolerance.Noise))
                yield return Found(shop.Source, key, $"The shop's {key} is {words(figure)}; {words(least)} to {words(most)} is usual.", Remedy);
        }
    }
}
