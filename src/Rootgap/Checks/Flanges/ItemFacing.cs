using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Routes;

namespace Rootgap.Checks;

internal sealed class ItemFacing : ItemRule
{
    public override string Name => "facing-mismatch";
    public override Severity Severity => Severity.Stop;
    public override string Says => "A flange or valve is listed with another facing than the drawing gives.";
    public override string Why => "A raised face against a flat cast one breaks it, and a ring joint seals only against a ring joint (ASME B16.5 6.4, common practice); the lengths differ as well.";
    protected override string Key => "what";
    protected override string LegKey => "facing";
    protected override string Otherwise => "The joint cannot be made tight.";

    private protected override string? Against(MaterialItem item, in ItemUse use, Route route) =>
        use.Part is { HasFacing: true } and not Gasket && item.Words.Facing is { } facing && facing != use.Line.Facing
            ? $"facing {Words.Of(facing)} listed, {Words.Of(use.Line.Facing)} drawn"
            : null;
}
