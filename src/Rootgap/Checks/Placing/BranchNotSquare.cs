using Rootgap.Findings;

namespace Rootgap.Checks;

internal sealed class BranchNotSquare : PlacingRule
{
    public override string Name => "branch-not-square";
    public override Severity Severity => Severity.Stop;
    public override string Says => "A tee whose branch does not stand square to its run, or a lateral whose branch does; a warning for an outlet or a stub-in that leans by less than 20 degrees off square, or flatter than 45 degrees.";
    public override string Why => "Tees make 90 degrees (ASME B16.9); a lateral is another fitting. Branches that are set on may lean; ASME B31.3 304.3.3 has a rule for their reinforcement from 45 degrees up.";
}
