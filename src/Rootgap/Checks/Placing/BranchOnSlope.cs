using Rootgap.Findings;

namespace Rootgap.Checks;

internal sealed class BranchOnSlope : PlacingRule
{
    public override string Name => "branch-on-slope";
    public override Severity Severity => Severity.Note;
    public override string Says => "A branch and a run of which one slopes: they stand a little off square to each other.";
    public override string Why => "Square to the run, upright and along the slope are not the same there: the fitter must know which is wanted (common practice).";
}
