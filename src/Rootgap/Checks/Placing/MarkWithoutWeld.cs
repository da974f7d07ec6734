using Rootgap.Findings;

namespace Rootgap.Checks;

internal sealed class MarkWithoutWeld : PlacingRule
{
    public override string Name => "mark-without-weld";
    public override Severity Severity => Severity.Warn;
    public override string Says => "A weld mark, or a weld number of the office, on an end of a leg where no weld is.";
    public override string Why => "The mark was meant for another leg, and the weld that it was meant for is now a shop weld (common practice).";
}
