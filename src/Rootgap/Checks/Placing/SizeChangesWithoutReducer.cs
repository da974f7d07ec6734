using Rootgap.Findings;

namespace Rootgap.Checks;

internal sealed class SizeChangesWithoutReducer : PlacingRule
{
    public override string Name => "size-changes-without-reducer";
    public override Severity Severity => Severity.Stop;
    public override bool CanBeAccepted => false;
    public override string Says => "The size changes from one leg to the next, or between a run and the branch it joins, with no reducer between.";
    public override string Why => "Two sizes of pipe do not butt each other (common practice: a fitting's size must equal the line's at each of its ends).";
}
