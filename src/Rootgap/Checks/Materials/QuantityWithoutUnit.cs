using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.Checks;

/// <summary>A bare number of pipe: read as metres, or in a drawing in inches as feet.</summary>
internal sealed class QuantityWithoutUnit : Rule
{
    public override string Name => "quantity-without-unit";
    public override Severity Severity => Severity.Note;
    public override string Says => "The quantity of a pipe row has no unit: it is read as metres, or as feet where the drawing is in inches.";
    public override string Why => "Lists give pipe in metres, feet, or bars, and the number alone does not say which (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var item in fabrication.Route.Drawing.Materials)
        {
            if (item.Words.Ware != Ware.Pipe || item.Quantity is not null || item.Count is not { } count)
                continue;
            var read = LengthText.Pipe(fabrication.Units, count * LengthText.PipeUnit(fabrication.Units) / 1000);
            yield return Found(item.Source, "quantity", Say($"Item {item.Item}, pipe: {count:0.##} is read as {read}."), $"Write the unit: `quantity: {read}`. Bars are given by their length in all.");
        }
    }
}
