using Rootgap.Findings;

namespace Rootgap.Checks;

internal sealed class NippleLength : PlacingRule
{
    public override string Name => "nipple-length";
    public override Severity Severity => Severity.Stop;
    public override bool CanBeAccepted => false;
    public override string Says => "A leg whose distance is not what its nipple and the two fittings make.";
    public override string Why => "A nipple is bought at its length and is not cut: what is drawn and what is ordered cannot both be right.";
}
