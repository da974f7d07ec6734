using Rootgap.Findings;

namespace Rootgap.Checks;

internal sealed class NoMakeUpWithoutPipe : PlacingRule
{
    public override string Name => "no-make-up-without-pipe";
    public override Severity Severity => Severity.Stop;
    public override bool CanBeAccepted => false;
    public override string Says => "Fittings made up to each other where one takes the pipe in a socket, a thread or a slip-on flange.";
    public override string Why => "Socket-weld and threaded fittings cannot butt each other: a nipple stands between (common practice).";
}
