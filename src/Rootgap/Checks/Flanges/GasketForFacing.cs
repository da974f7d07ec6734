using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Routes;

namespace Rootgap.Checks;

internal sealed class GasketForFacing : ItemRule
{
    public override string Name => "gasket-for-facing";
    public override Severity Severity => Severity.Stop;
    public override string Says => "The gasket listed does not go with the facing: a ring in a raised face, a spiral-wound one in a ring-joint groove, a narrow one on flat faces.";
    public override string Why => "Ring joints take metal rings (ASME B16.20), raised faces flat or spiral-wound gaskets inside the bolts, flat faces full-face gaskets so that cast flanges are not bent (ASME B16.21, common practice).";
    protected override string Key => "what";
    protected override string LegKey => "facing";
    protected override string Otherwise => "The joint leaks, or a cast flange breaks when it is tightened.";

    private protected override string? Against(MaterialItem item, in ItemUse use, Route route) =>
        use.Part is Gasket && Gasket.GoesWith(item.What, item.Material, use.Line.Facing) == false ? $"it does not go with {Words.Of(use.Line.Facing)} faces" : null;
}
