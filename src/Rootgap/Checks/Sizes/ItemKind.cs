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
        if (words.Ware != use.Ware)
            return use.IsStated && words.Ware != Ware.Other ? $"{item.What} listed, {use.Name} drawn" : null;
        var isOther = use.Ware switch
        {
            Ware.Elbow => IsOtherElbow(words, use.Name),
            Ware.Flange => words.Flange is { } kind && use.Name != "flange " + Words.Of(kind),
            Ware.Valve => words.Valve is { } valve && use.Name != "valve " + Words.Of(valve) || words.Ends is { } ends && use.Drawn is ValvePoint { Ends: var drawn } && ends != drawn,
            Ware.Reducer => words.IsEccentric is { } eccentric && eccentric != use.Name.EndsWith("eccentric", StringComparison.Ordinal),
            _ => false,
        };
        return isOther ? $"{item.What} listed, {use.Name} drawn" : null;
    }

    /// <summary>A leg that names a radius or a flange type of its own is mostly the odd one.</summary>
    private protected override bool LegStandsAlone(MaterialItem item, in ItemUse use, Route route) =>
        use.Ware == Ware.Elbow && use.Source.Has("radius") || use.Ware == Ware.Flange && use.Source.Has("flange");

    private static bool IsOtherElbow(WareWords words, string name)
    {
        if (!name.StartsWith("elbow", StringComparison.Ordinal))
            return false;
        var angle = name.Contains("45", StringComparison.Ordinal) ? 45 : 90;
        var radius = name switch { _ when name.EndsWith("SR", StringComparison.Ordinal) => ElbowRadius.Short, _ when name.EndsWith("3D", StringComparison.Ordinal) => ElbowRadius.ThreeD, _ => ElbowRadius.Long };
        return words.Angle is { } listed && listed != angle || (words.Radius ?? ElbowRadius.Long) != radius;
    }
}
