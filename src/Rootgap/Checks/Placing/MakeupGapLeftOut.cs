using Rootgap.Findings;

namespace Rootgap.Checks;

internal sealed class MakeupGapLeftOut : PlacingRule
{
    public override string Name => "makeup-gap-left-out";
    public override Severity Severity => Severity.Note;
    public override string Says => "A dimension that is just the sum of two take-offs, with no room for the root gap.";
    public override string Why => "Drawings differ in whether fitting-to-fitting dimensions count the gap: ask which is meant (common practice).";
}
