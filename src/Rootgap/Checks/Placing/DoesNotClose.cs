using Rootgap.Findings;

namespace Rootgap.Checks;

internal sealed class DoesNotClose : ClosingRule
{
    public override string Name => "does-not-close";
    public override Severity Severity => Severity.Stop;
    public override string Says => "The legs do not end where the drawing says the point stands, or where the branch that they join stands.";
    public override string Why => "The sum of the legs east, north and up must each equal the end less the start; over 1 mm apart one dimension is wrong (common practice).";
}
