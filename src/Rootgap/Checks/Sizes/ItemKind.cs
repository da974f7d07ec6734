using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Routes;

namespace Rootgap.Checks;

internal sealed class ItemKind : ItemRule
{
    public override string Name => "item-is-another-part";
    public override Severity Severity => Severity.Stop;
    public override string Says => "The material row is another kind of part than the drawing shows: short radius for long, slip-on for weld neck, concentric for eccentric.";
    public override string Why => "Each has its own take-off, and the sums count the drawn one (common practice: wrong radius and wrong flange type are usual ordering mistakes).";
    protected override string Key => "what";
    protected override string LegKey => "";
    protected override string Otherwise => "The pieces are cut for a part that does not come.";

    private protected override string? Against(MaterialItem item, in ItemUse use, Route route)
    {
        var words = item.Words;
        if (!use.Part.IsListedAs(item))
            return use.IsStated && words.Ware != Ware.Other ? $"{item.What} listed, {use.Part.Name} drawn" : null;
        return use.Part.IsOtherKind(words) ? $"{item.What} listed, {use.Part.DrawnAs} drawn" : null;
    }

    /// <summary>A leg that names a radius or a flange type of its own is mostly the odd one.</summary>
    private protected override bool LegStandsAlone(MaterialItem item, in ItemUse use, Route route) =>
        use.Part is Bent && use.Source.Has("radius") || use.Part is Flange && use.Source.Has("flange");
}
