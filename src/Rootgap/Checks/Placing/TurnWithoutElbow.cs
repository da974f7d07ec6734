using Rootgap.Findings;

namespace Rootgap.Checks;

internal sealed class TurnWithoutElbow : PlacingRule
{
    public override string Name => "turn-without-elbow";
    public override Severity Severity => Severity.Stop;
    public override bool CanBeAccepted => false;
    public override string Says => "The line turns where nothing stands that turns it.";
    public override string Why => "Pipe is straight: a valve, a joint, a weld or a point goes straight on (geometry).";
}
