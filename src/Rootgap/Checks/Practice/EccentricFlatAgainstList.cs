using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>An eccentric reducer whose row of the list names the other flat side.</summary>
internal sealed class EccentricFlatAgainstList : Rule
{
    private const double Plainly = 0.7;

    public override string Name => "eccentric-flat-against-list";
    public override Severity Severity => Severity.Warn;
    public override string Says => "The material row of an eccentric reducer says flat top or flat bottom, and the drawing has the flat on the other side.";
    public override string Why => "Air gathers under a flat bottom in a pump's suction, water before a flat top in a line that drains (the list contradicts the drawing).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var reducer in fabrication.Route.Components.OfType<Reducer>())
        {
            if (!reducer.IsEccentric || reducer.Item is not { } item || Math.Abs(reducer.Flat.Z) < Plainly)
                continue;
            var text = $"{item.What} {item.Source.Text("note")}";
            var (top, bottom) = (IsSaid("flat top") || IsSaid("top flat") || IsSaid("FOT"), IsSaid("flat bottom") || IsSaid("bottom flat") || IsSaid("FOB"));
            if (top != bottom && top != reducer.Flat.Z > 0)
                yield return Found(reducer.Source, reducer.Source.Has("flat") ? "flat" : "to", $"Item {item.Item} is for the flat {(top ? "at the top" : "at the bottom")}, and this {reducer.Name} is drawn with it {(top ? "at the bottom" : "at the top")}.", "Ask which is right, and mend the other.", "Air or water stands in the line.");

            bool IsSaid(string words) => text.Contains(words, StringComparison.OrdinalIgnoreCase);
        }
    }
}
