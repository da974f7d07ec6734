using Rootgap.Findings;

namespace Rootgap.Checks;

internal sealed class OddTurnInForgedFitting : PlacingRule
{
    public override string Name => "odd-turn-in-forged-fitting";
    public override Severity Severity => Severity.Stop;
    public override string Says => "A socket-weld or threaded elbow with a turn other than 90 or 45 degrees. Where a slight slope makes it so it is a note.";
    public override string Why => "Forged elbows come in 90 and 45 (ASME B16.11) and cannot be cut to another angle.";
}
