using Rootgap.Findings;

namespace Rootgap.Checks;

internal sealed class ReturnNotBack : PlacingRule
{
    public override string Name => "return-not-back";
    public override Severity Severity => Severity.Stop;
    public override string Says => "A return bend behind which the line does not come straight back.";
    public override string Why => "A return is one fitting that turns the line by 180 degrees (ASME B16.9): its two ends look the same way, and its crown lies square to both.";
}
