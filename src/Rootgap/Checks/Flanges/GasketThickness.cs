using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Checks;

internal sealed class GasketThickness : ItemRule
{
    private const double Differs = 0.5;

    public override string Name => "gasket-thickness";
    public override Severity Severity => Severity.Warn;
    public override string Says => "The gasket listed has another thickness than the sums count.";
    public override string Why => "The sums take the compressed thickness: a spiral-wound gasket of 4.5 mm goes down to about 3.2 (common practice; ASME B16.20).";
    protected override string Key => "thickness";
    protected override string LegKey => "gasket";
    protected override string Remedy => "Give the line's `gasket:` the compressed thickness of the gasket listed.";
    protected override string Otherwise => "Every joint makes the line longer or shorter by the difference.";

    private protected override string? Against(MaterialItem item, in ItemUse use, Route route)
    {
        if (use.Part is not Gasket || use.Line.Facing == Facing.RingJoint || item.Source.Text("thickness") is not { } text || !LengthText.TryParse(text, route.Drawing.Units, out var listed))
            return null;
        var counted = use.Line.Gasket ?? Line.UsualGasket;
        return Math.Abs(listed - counted) > Differs ? Say(route.Drawing.Units, $"{listed:len} thick listed, {counted:len} counted in the sums") : null;
    }
}
