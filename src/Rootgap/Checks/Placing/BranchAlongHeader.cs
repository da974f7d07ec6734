using Rootgap.Findings;

namespace Rootgap.Checks;

internal sealed class BranchAlongHeader : PlacingRule
{
    public override string Name => "branch-along-header";
    public override Severity Severity => Severity.Stop;
    public override bool CanBeAccepted => false;
    public override string Says => "A branch that points along its own header.";
    public override string Why => "The side on which it leaves is not told, so the hole cannot be marked (geometry).";
}
