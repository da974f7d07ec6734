using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.Checks;

/// <summary>Less pipe listed than is cut.</summary>
internal sealed class PipeListedShort : Rule
{
    /// <summary>Lists are written to a tenth of a metre: half of that is rounding, m.</summary>
    private const double Rounding = 0.05;

    public override string Name => "pipe-listed-short";
    public override Severity Severity => Severity.Stop;
    public override string Says => "The list's pipe is shorter than the pieces as fitted (stop), or than the pieces with final-fit extra and saw cuts (warning).";
    public override string Why => "The last piece cannot be cut. What is left long at a final-fit weld and what the saw takes is pipe too (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var kerf = fabrication.Route.Drawing.Shop.Kerf;
        foreach (var row in fabrication.Materials)
        {
            if (!row.IsLength || row.Item is not { } item || row.Listed is not { } listed || row.UsedBy.Count == 0)
                continue;
            var (fitted, extra, cuts) = (0.0, 0.0, 0);
            foreach (var cut in fabrication.Cuts)
            {
                if (cut.Pipe.Item is not { } own || (own != item && !(cut.Pipe.IsItemGuessed && Alike.Are(own, item))))
                    continue;
                fitted += Math.Max(0, cut.Length - cut.Extra) / 1000;
                extra += cut.Extra / 1000;
                cuts++;
            }

            var all = row.IsGuess ? Alike.Together(fabrication.Materials, row).Listed : listed;
            var saw = cuts * kerf / 1000;
            var needed = fitted + extra + saw;
            if (all >= needed - Rounding)
                continue;
            var isShortAnyway = all < fitted - Rounding;
            var enough = LengthText.PipeAtLeast(fabrication.Units, needed);
            yield return Found(item.Source, "quantity", Say(fabrication.Units, $"Item {item.Item}, pipe: {needed:pipe} needed ({cuts} {(cuts == 1 ? "piece" : "pieces")} {fitted:pipe}{(extra > 0 ? Say(fabrication.Units, $", final-fit extra {extra:pipe}") : "")}, saw cuts {saw:pipe}), {all:pipe} listed: {needed - all:pipe} short."),
                OtherUnit(fabrication, item, needed) is { } slip ? $"{slip} Else list at least {enough}." : $"List at least {enough}, if the dimensions are right.", "The last piece cannot be cut.", isShortAnyway ? Severity.Stop : Severity.Warn) with
            {
                Change = item.Source.Has("unit") || all > listed ? null : item.Source.Replace("quantity", enough, Say(fabrication.Units, $"item {item.Item}: quantity {listed:pipe} is now {enough}")),
                InSheet = item.Source.Has("unit") || all > listed ? null : item.Source.InSheet("quantity", enough, Say(fabrication.Units, $"item {item.Item}: quantity {listed:pipe} is now {enough}")),
            };
        }
    }

    /// <summary>Where the figure would be enough in metres and is written in feet, in the list's own words; null where it would not.</summary>
    private static string? OtherUnit(Fabrication fabrication, MaterialItem item, double needed) =>
        item.Source.Text("quantity") is { } written && item.Quantity is { } mm && fabrication.Units == Units.Millimetres && written.TrimEnd() is var text && (text.EndsWith("ft", StringComparison.OrdinalIgnoreCase) || text.EndsWith('\''))
        && mm / LengthText.PipeUnit(Units.Inches) >= needed - Rounding && mm / LengthText.PipeUnit(Units.Inches) <= (needed * 1.5) + 1 ? $"The list says {text}; the same figure in metres would be enough: look whether the unit slipped." : null;
}
