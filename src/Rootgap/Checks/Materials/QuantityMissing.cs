using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.Checks;

/// <summary>A row without a quantity.</summary>
internal sealed class QuantityMissing : Rule
{
    public override string Name => "quantity-missing";
    /// <summary>In a list that gives quantities, so few rows without one were forgotten.</summary>
    private const int Forgotten = 2;

    public override Severity Severity => Severity.Warn;
    public override string Says => "A row of the material list gives no quantity.";
    public override string Why => "What is needed cannot be held against what is listed (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var without = fabrication.Materials.Count(r => r.Item is not null && r.Listed is null);
        var severity = without <= Forgotten && fabrication.Materials.Count(r => r.Listed is not null) > Forgotten ? Severity.Warn : Severity.Note;
        foreach (var row in fabrication.Materials)
        {
            if (row.Item is not { } item || row.Listed is not null || row.UsedBy.Count == 0)
                continue;
            var needed = row.IsLength ? LengthText.PipeAtLeast(fabrication.Units, row.Needed) : Say($"{row.Needed:0}");
            yield return Found(item.Source, "item", Say($"Item {item.Item}, {item.What}, has no quantity; the drawing needs {needed}."), $"Add `quantity: {needed}`.", severity: severity) with
            {
                Change = item.Source.Add("what", "quantity", needed, Say($"item {item.Item} now has the quantity {needed}")),
            };
        }
    }
}
