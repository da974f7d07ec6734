using Rootgap.Findings;

namespace Rootgap.Checks;

internal sealed class RunLeavesWrongWay : PlacingRule
{
    public override string Name => "run-leaves-wrong-way";
    public override Severity Severity => Severity.Stop;
    public override string Says => "A run that leaves a branch, or comes to one, by another way than the branch points.";
    public override string Why => "The free end of a tee or an outlet has one direction (geometry): one of the two is read wrong.";
}
