using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Routes;
using Rootgap.Sums;

namespace Rootgap.Papers;

/// <summary>A bolted joint as its assembler needs it.</summary>
/// <param name="Studs">Null where they are by others, or counted at the other joint of a wafer.</param>
/// <param name="Pattern">Holes of its flange; null where no table has them.</param>
/// <param name="Load">What a bolt is drawn to; null where the shop gives no bolting rule, or the table has no such bolt.</param>
public sealed record BoltedJoint(Joint Joint, BoltSet? Studs, BoltPattern? Pattern, Gasket? Gasket, BoltLoad? Load)
{
    /// <summary>What stands in the place of a torque that nobody has given.</summary>
    public const string ByProcedure = "by the bolting procedure";

    /// <summary>A joint is not drawn together by its bolts (ASME PCC-1 appendix E as quoted; common practice).</summary>
    public const string NeverPull = "Never pull flanges together by their bolts: they meet within the limits below, at rest, or the pipe is put right first.";

    /// <summary>Greatest gap at rest against the gasket's thickness, and the steps and holes, mm (ASME PCC-1 appendix E as quoted in published text).</summary>
    public const double GapInGaskets = 2;

    public const double MostOffset = 1.5;
    public const double MostOutOfParallel = 0.8;
    public const double MostHoles = 3;

    public static IReadOnlyList<BoltedJoint> Of(Fabrication f)
    {
        var rule = f.Route.Drawing.Shop.Bolting;
        var gaskets = f.Route.Components.OfType<Gasket>().ToList();
        return [.. f.Route.Joints.Where(j => j.Kind == JointKind.Bolted).Select(j =>
        {
            var flange = j.Between.Select(f.Route.ComponentOf).OfType<Flange>().FirstOrDefault();
            var gasket = j.ByOthers ? null : gaskets.OrderBy(g => g.Centre.To(j.At)).FirstOrDefault();
            var pattern = flange?.Bolts;
            return new BoltedJoint(j, f.Bolting.FirstOrDefault(b => b.Joint == j), pattern, gasket, rule is not null && pattern is not null ? BoltLoad.Of(pattern.Bolt, rule) : null);
        })];
    }

    /// <summary>The order of tightening; null where there is none for the count.</summary>
    public IReadOnlyList<int>? Order => Pattern is { } pattern && StarOrder.Has(pattern.Count) ? StarOrder.Of(pattern.Count) : null;
}
