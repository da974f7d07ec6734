using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Routes;

namespace Rootgap.Checks;

internal sealed class ItemSize : ItemRule
{
    public override string Name => "item-size-mismatch";
    public override Severity Severity => Severity.Stop;
    public override string Says => "The material row that the drawing names for a part has another size.";
    public override string Why => "A fitting's size must equal the line's at each of its ends (common practice).";
    protected override string Key => "size";
    protected override string LegKey => "";

    private protected override string? Against(MaterialItem item, in ItemUse use, Route route)
    {
        // What is in the line by its own words, as a control valve, is listed under the words of another part.
        if (!use.IsStated || item.Size.IsNone || (item.Words.Ware != use.Part.Ware && !(use.Part is InLineItem && use.Part.IsListedAs(item))))
            return null;
        if (item.Size != use.Size)
            return $"NPS {item.Size} listed, {use.Size} drawn";
        return use.Part is Reducer or Tee && item.Size2 != use.Size2 && !item.Size2.IsNone ? $"NPS {item.Size} x {item.Size2} listed, {use.Size} x {(use.Size2.IsNone ? use.Size : use.Size2)} drawn" : null;
    }
}
