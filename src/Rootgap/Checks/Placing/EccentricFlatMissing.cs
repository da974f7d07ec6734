using Rootgap.Findings;

namespace Rootgap.Checks;

internal sealed class EccentricFlatMissing : PlacingRule
{
    public override string Name => "eccentric-flat-missing";
    public override Severity Severity => Severity.Stop;
    public override string Says => "An eccentric reducer that does not say which side is flat.";
    public override string Why => "The centreline steps by half the difference of the diameters toward the flat side, and a pocket or an air trap follows from the wrong one (common practice).";
}
