using Rootgap.Findings;

namespace Rootgap.Checks;

internal sealed class FinalFitWithoutPipe : PlacingRule
{
    public override string Name => "final-fit-without-pipe";
    public override Severity Severity => Severity.Stop;
    public override bool CanBeAccepted => false;
    public override string Says => "A final-fit weld where fitting stands on fitting.";
    public override string Why => "There is no pipe to leave long and to trim (common practice).";
}
