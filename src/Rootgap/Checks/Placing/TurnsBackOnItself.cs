using Rootgap.Findings;

namespace Rootgap.Checks;

internal sealed class TurnsBackOnItself : PlacingRule
{
    public override string Name => "turns-back-on-itself";
    public override Severity Severity => Severity.Stop;
    public override bool CanBeAccepted => false;
    public override string Says => "A leg goes straight back along the one before.";
    public override string Why => "The pipe would lie in itself: one of the two directions is wrong (geometry).";
}
