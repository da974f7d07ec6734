using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Checks;

internal sealed class ItemLength : ItemRule
{
    public override string Name => "item-length-mismatch";
    public override Severity Severity => Severity.Stop;
    public override string Says => "A nipple is listed with another length than the drawing gives it, or a plate between two flanges with another thickness.";
    public override string Why => "A nipple is bought at its length and sets the distance between its fittings (common practice).";
    protected override string Key => "length";
    protected override string LegKey => "nipple";

    private protected override string? Against(MaterialItem item, in ItemUse use, Route route) =>
        use.Part is PipePiece { Nipple: { } drawn } && item is { Length: { } listed, Words.Ware: Ware.Nipple } && Math.Abs(listed - drawn) > Tolerance.Closing
            ? LengthText.Say(route.Drawing.Units, $"{listed:len} long listed, {drawn:len} drawn")
            : use.Part is InLineItem { IsPlate: true, Path: var thick } && item.Source.Text("thickness") is { } text && LengthText.TryParse(text, route.Drawing.Units, out var plate) && Math.Abs(plate - thick) > Tolerance.Closing
            ? LengthText.Say(route.Drawing.Units, $"{plate:small} thick listed, {thick:small} drawn")
            : null;
}
