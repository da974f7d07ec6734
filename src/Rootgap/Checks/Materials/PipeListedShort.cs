using Rootgap.Fabricating;
using Rootgap.Findings;

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
            var enough = Say($"{Math.Ceiling(Math.Round(needed * 10, 6)) / 10:0.0} m");
            yield return Found(item.Source, "quantity", Say($"Item {item.Item}, pipe: {needed:0.00} m needed ({cuts} {(cuts == 1 ? "piece" : "pieces")} {fitted:0.00}{(extra > 0 ? Say($", final-fit extra {extra:0.00}") : "")}, saw cuts {saw:0.000}), {all:0.00} m listed: {needed - all:0.00} m short."),
                $"List at least {enough}.", "The last piece cannot be cut.", isShortAnyway ? Severity.Stop : Severity.Warn) with
            {
                Change = item.Source.Has("unit") || all > listed ? null : item.Source.Replace("quantity", enough, Say($"item {item.Item}: quantity {listed:0.##} m is now {enough}")),
                InSheet = item.Source.Has("unit") || all > listed ? null : item.Source.InSheet("quantity", enough, Say($"item {item.Item}: quantity {listed:0.##} m is now {enough}")),
            };
        }
    }
}
