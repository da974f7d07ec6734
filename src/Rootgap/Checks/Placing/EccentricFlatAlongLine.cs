using Rootgap.Findings;

namespace Rootgap.Checks;

internal sealed class EccentricFlatAlongLine : PlacingRule
{
    public override string Name => "eccentric-flat-along-line";
    public override Severity Severity => Severity.Stop;
    public override bool CanBeAccepted => false;
    public override string Says => "An eccentric reducer whose flat side is named along the line itself.";
    public override string Why => "The flat is a side of the pipe: it lies square to the line (geometry).";
}
