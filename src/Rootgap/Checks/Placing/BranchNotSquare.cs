using Rootgap.Findings;

namespace Rootgap.Checks;

internal sealed class BranchNotSquare : PlacingRule
{
    public override string Name => "branch-not-square";
    public override Severity Severity => Severity.Stop;
    public override string Says => "A branch that does not stand square to its run.";
    public override string Why => "Tees, outlets and stub-ins make 90 degrees (ASME B16.9, MSS SP-97); a lateral is another fitting.";
}
