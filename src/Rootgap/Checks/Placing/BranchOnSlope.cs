using Rootgap.Findings;

namespace Rootgap.Checks;

internal sealed class BranchOnSlope : PlacingRule
{
    public override string Name => "branch-on-slope";
    public override Severity Severity => Severity.Note;
    public override string Says => "An upright branch on a sloped run.";
    public override string Why => "Square to the run and upright are not the same there: the fitter must know which is wanted (common practice).";
}
