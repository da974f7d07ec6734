using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>A girth weld inside a support, or beside one.</summary>
internal sealed class WeldAtSupport : Rule
{
    private const double Usual = 50;

    public override string Name => "weld-at-support";
    public override Severity Severity => Severity.Stop;
    public override string Says => "A girth weld stands inside a support: a stop where it is made at site, a warning in the shop. Nearer to its edge than the shop's `weld spacing` (warnings), or than 50 mm (a note).";
    public override string Why => "It cannot be welded all round, examined, or seen when it leaks in the test; and the support's own weld runs into it (common practice: girth welds clear of supports, clamps and sleeves). Without `length:` a support is taken to cover half a diameter of pipe.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var route = fabrication.Route;
        var stated = route.Drawing.Shop.WeldSpacing;
        foreach (var support in route.Supports)
        {
            // Along the support's own line: the next weld either way, whatever pieces lie between.
            var nearest = route.Joints.Where(j => j.Kind == JointKind.Butt && (j.At - support.At).SquareTo(support.Along).Length < support.Outside / 2 && Math.Abs(j.Axis.Dot(support.Along)) > 0.99)
                .MinBy(j => j.At.To(support.At));
            if (nearest is null)
                continue;
            var left = nearest.At.To(support.At) - (nearest.Gap / 2) - support.Covers;
            var isInside = left < 0;
            if (!isInside && left >= (stated ?? Usual) - Tolerance.Noise)
                continue;
            var isShop = nearest.Place == WeldPlace.Shop;
            yield return Found(support.Source, "by", isInside
                    ? Say(fabrication.Units, $"{nearest.Id}, {(isShop ? "a shop weld" : nearest.Place == WeldPlace.FinalFit ? "a final-fit weld" : "a field weld")}, lies inside {support.Tag}: {nearest.At.To(support.At):len} from the middle of this {support.Name}.")
                    : Say(fabrication.Units, $"The edge of {support.Tag}, {Words.A(support.Name)}, is {left:len} from {nearest.Id}; {(stated is null ? "usual is" : "the shop wants")} {stated ?? Usual:len}."),
                "Move the support or the weld: ask the engineer which.",
                severity: isInside ? isShop ? Severity.Warn : Severity.Stop : stated is not null || !isShop ? Severity.Warn : Severity.Note);
        }
    }
}
