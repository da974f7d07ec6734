using Rootgap.Findings;

namespace Rootgap.Checks;

internal sealed class ElevationDoesNotClose : ClosingRule
{
    public override string Name => "elevation-does-not-close";
    public override Severity Severity => Severity.Stop;
    public override string Says => "The legs end at the right place in plan, but at another elevation than the drawing says.";
    public override string Why => "Elevations are checked by themselves: a drop or a rise is wrong, or an elevation is given to the bottom of the pipe and not to its centre (common practice).";
}
