using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>A gasket of a thickness that none has.</summary>
internal sealed class GasketUnusual : Rule
{
    private const double Least = 0.5;
    private const double Most = 7.5;

    /// <summary>Whether no gasket that is not a ring is so thick or so thin, mm.</summary>
    internal static bool IsOdd(double thickness) => thickness is < Least or > Most;

    public override string Name => "gasket-unusual";
    public override Severity Severity => Severity.Warn;
    public override string Says => "The gasket counted in the sums is thinner than 0.5 mm or thicker than 7.5, and it is no ring.";
    public override string Why => "Gaskets between flanges are 0.8 to 6.4 mm thick (ASME B16.20 spiral-wound 3.2, 4.5 and 6.4; B16.21 flat 0.8 to 3.2): a slipped point makes every joint longer.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var route = fabrication.Route;
        var odd = route.Components.FirstOrDefault(c => c is Gasket { Line: { Facing: not Facing.RingJoint, Gasket: < Least or > Most } });
        if (odd is null)
            yield break;
        var run = route.Runs[odd.Run].Run;
        var where = odd.Source.Has("gasket") ? odd.Source : run.Source.Has("gasket") ? run.Source : route.Drawing.Source;
        yield return Found(where, where == route.Drawing.Source ? "line" : "gasket", Say(fabrication.Units, $"A gasket {odd.Line.Gasket!.Value:small} thick is counted in the sums; {Least:small} to {Most:small} is usual."), "Look whether the point or the unit slipped.", "Every piece beside a flange is cut wrong by it.");
    }
}
