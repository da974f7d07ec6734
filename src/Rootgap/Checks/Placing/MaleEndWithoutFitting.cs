using Rootgap.Findings;

namespace Rootgap.Checks;

internal sealed class MaleEndWithoutFitting : PlacingRule
{
    public override string Name => "male-end-without-fitting";
    public override Severity Severity => Severity.Stop;
    public override bool CanBeAccepted => false;
    public override string Says => "A swage's plain or threaded end, or a plug, that meets something it cannot go into.";
    public override string Why => "A male end goes into a socket or a thread of a fitting; with a pipe it needs a coupling between (common practice).";
}
