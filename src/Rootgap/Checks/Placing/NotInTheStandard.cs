using Rootgap.Findings;

namespace Rootgap.Checks;

internal sealed class NotInTheStandard : PlacingRule
{
    public override string Name => "not-in-the-standard";
    public override Severity Severity => Severity.Stop;
    public override bool CanBeAccepted => false;
    public override string Says => "A size, schedule or class that the standard has no row for: a reducer beyond its range, a flange class that a size does not come in.";
    public override string Why => "Nobody makes it, and its dimensions are known to no table (ASME B36.10M, B16.9, B16.5, B16.11, B16.10, MSS SP-97: the tables' own range).";
}
