using Rootgap.Findings;

namespace Rootgap.Checks;

internal sealed class RingJointValveLength : PlacingRule
{
    public override string Name => "ring-joint-valve-length";
    public override Severity Severity => Severity.Warn;
    public override string Says => "A ring-joint valve whose length comes from the table for raised faces, and whose groove the tables do not have.";
    public override string Why => "Ring-joint valves are longer than raised-face ones (ASME B16.10), and so the legs beside them are shorter.";
}
