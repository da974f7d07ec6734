using Rootgap.Findings;

namespace Rootgap.Checks;

internal sealed class ReducerWithoutChange : PlacingRule
{
    public override string Name => "reducer-without-change";
    public override Severity Severity => Severity.Stop;
    public override string Says => "A reducer that leaves the size as it is.";
    public override string Why => "There is no such fitting (ASME B16.9): the size at one of its ends is wrong.";
}
