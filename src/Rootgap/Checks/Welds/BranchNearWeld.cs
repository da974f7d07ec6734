using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.Checks;

/// <summary>A branch set on a girth weld, or beside one.</summary>
internal sealed class BranchNearWeld : Rule
{
    private const double Usual = 50;

    public override string Name => "branch-near-weld";
    public override Severity Severity => Severity.Warn;
    public override string Says => "The hole of an outlet or stub-in cuts a girth weld, or comes nearer to it than the shop's `weld spacing`, or than a third of 50 mm (warnings), or than 50 mm (a note).";
    public override string Why => "A branch on a weld opens the weld again, and two heats run into each other (common practice: keep the branch's edge 50 mm or more from the weld).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var stated = fabrication.Route.Drawing.Shop.WeldSpacing;
        foreach (var (branch, row, apart, radius) in WeldBesideBranch.AllOf(fabrication.Route))
        {
            var left = apart - radius;
            var isOnWeld = left < fabrication.Route.Drawing.Shop.RootGap / 2;
            if (!isOnWeld && left >= (stated ?? Usual) - Tolerance.Noise)
                continue;
            yield return Found(row, "by", isOnWeld
                    ? Say(fabrication.Units, $"This {branch.Word} stands on a girth weld: its centre is {apart:len} from the weld, and it is {2 * radius:len} wide.")
                    : Say(fabrication.Units, $"The edge of this {branch.Word} is {left:len} from a girth weld; {(stated is null ? "usual is" : "the shop wants")} {stated ?? Usual:len}."),
                "Move the branch or the weld.", severity: isOnWeld || stated is not null || left < Usual / 3 ? Severity.Warn : Severity.Note);
        }
    }
}
