using Rootgap.Findings;

namespace Rootgap.Checks;

internal sealed class BranchLargerThanRun : PlacingRule
{
    public override string Name => "branch-larger-than-run";
    public override Severity Severity => Severity.Stop;
    public override bool CanBeAccepted => false;
    public override string Says => "A tee's branch, an outlet or a stub-in is larger than the run that it stands on.";
    public override string Why => "Reducing tees reduce on the branch (ASME B16.9), and a branch cannot be wider than its header.";
}
