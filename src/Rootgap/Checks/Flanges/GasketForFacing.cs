using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Routes;

namespace Rootgap.Checks;

internal sealed class GasketForFacing : ItemRule
{
    private static readonly string[] Rings = ["RTJ", "RING JOINT", "RING-JOINT", "OCTAGONAL", "OVAL RING"];
    private static readonly string[] FullFace = ["FULL FACE", "FULL-FACE", "FULLFACE"];
    private static readonly string[] Raised = ["SPIRAL", "GROOVED", "SERRATED", "FLAT", "SHEET", "FIBRE", "FIBER", "GRAPHITE", "PTFE", "RUBBER", "EPDM"];

    public override string Name => "gasket-for-facing";
    public override Severity Severity => Severity.Stop;
    public override string Says => "The gasket listed does not go with the facing: a ring in a raised face, a spiral-wound one in a ring-joint groove, a narrow one on flat faces.";
    public override string Why => "Ring joints take metal rings (ASME B16.20), raised faces flat or spiral-wound gaskets inside the bolts, flat faces full-face gaskets so that cast flanges are not bent (ASME B16.21, common practice).";
    protected override string Key => "what";
    protected override string LegKey => "facing";
    protected override string Otherwise => "The joint leaks, or a cast flange breaks when it is tightened.";

    private protected override string? Against(MaterialItem item, in ItemUse use, Route route)
    {
        if (use.Part is not Gasket)
            return null;
        var isRing = Says(item, Rings);
        var isFullFace = Says(item, FullFace);
        var isRaised = !isFullFace && Says(item, Raised);
        var isWrong = use.Line.Facing switch
        {
            Facing.RingJoint => !isRing && (isRaised || isFullFace),
            Facing.Flat => isRing || item.What.Contains("SPIRAL", StringComparison.OrdinalIgnoreCase),
            _ => isRing || isFullFace,
        };
        return isWrong ? $"it does not go with {Words.Of(use.Line.Facing)} faces" : null;

        static bool Says(MaterialItem item, string[] words)
        {
            foreach (var word in words)
            {
                if (item.What.Contains(word, StringComparison.OrdinalIgnoreCase))
                    return true;
            }

            return false;
        }
    }
}
