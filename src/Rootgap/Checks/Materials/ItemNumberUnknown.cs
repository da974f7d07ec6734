using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

/// <summary>The drawing states an item that the material list does not have.</summary>
internal sealed class ItemNumberUnknown : Rule
{
    public override string Name => "item-number-unknown";
    public override Severity Severity => Severity.Stop;
    public override string Says => "`item:` or `pipe item:` names a number that is not in the material list.";
    public override string Why => "Nobody knows what to draw from the stores (the drawing contradicts its own list).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var list = fabrication.Route.Drawing.Materials;
        if (list.Count == 0)
            yield break;
        foreach (var run in fabrication.Route.Drawing.Runs)
        {
            if (run.Start.Item is { } first && !Has(list, first))
                yield return Unknown(run.Start.Source, "item", first);
            foreach (var leg in run.Legs)
            {
                if (leg.Item is { } item && !Has(list, item))
                    yield return Unknown(leg.Source, "item", item);
                if (leg.PipeItem is { } pipe && !Has(list, pipe))
                    yield return Unknown(leg.Source, "pipe item", pipe);
            }
        }
    }

    private static bool Has(IReadOnlyList<MaterialItem> list, int number)
    {
        foreach (var item in list)
        {
            if (item.Item == number)
                return true;
        }

        return false;
    }

    private Finding Unknown(SourceRow row, string key, int number) =>
        Found(row, key, Say($"There is no item {number} in the material list."), "Write the number of the right row, or leave the key out: the item is then found by kind and size.");
}
