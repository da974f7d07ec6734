using Rootgap.Findings;

namespace Rootgap.Checks;

internal sealed class TurnOver90 : PlacingRule
{
    public override string Name => "turn-over-90";
    public override Severity Severity => Severity.Stop;
    public override string Says => "The line turns by more than 90 degrees at one elbow. Where a slight slope makes it so it is a note.";
    public override string Why => "Elbows are made and cut up to 90 degrees only (ASME B16.9 has 45, 90 and 180).";
}
