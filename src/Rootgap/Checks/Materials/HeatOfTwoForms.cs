using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

/// <summary>One heat on a flange and on something that is no flange, or on pipe of two sizes.</summary>
internal sealed class HeatOfTwoForms : Rule
{
    public override string Name => "heat-of-two-forms";
    public override Severity Severity => Severity.Warn;
    public override string Says => "A flange and a pipe or fitting of another material are listed with one heat number; a note where two sizes of pipe or flange are, or two kinds of fitting, or pipe and a fitting.";
    public override string Why => "A melt is forged to one standard or made into pipe to another, and each has its certificate: one of the two heats was copied (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var rows = fabrication.Route.Drawing.Materials.Where(m => m.Heat.Length > 0).ToList();
        foreach (var flange in rows.Where(m => m.Words.Ware == Ware.Flange))
        {
            if (rows.Find(o => o.Words.Ware != Ware.Flange && o.Heat.Equals(flange.Heat, StringComparison.OrdinalIgnoreCase) && !o.Material.Equals(flange.Material, StringComparison.OrdinalIgnoreCase)) is { } other)
                yield return Found(flange.Source, "heat", $"Item {flange.Item}, {flange.What}, and item {other.Item}, {other.What}, have one heat, {flange.Heat}.", "Read the marking on both, and mend the one that is wrong.", "One of the two cannot be traced.");
        }

        // A melt may be made into more than one thing, but its number stands on the next row by a slip as often.
        foreach (var one in rows.Where(m => m.Words.Ware is not (Ware.Flange or Ware.Pipe)))
        {
            if (rows.Find(o => o != one && o.Words.Ware != Ware.Flange && (o.Words.Ware != one.Words.Ware || (o.Size != one.Size && rows.IndexOf(o) < rows.IndexOf(one))) && o.Heat.Equals(one.Heat, StringComparison.OrdinalIgnoreCase)) is { } twin)
                yield return Found(one.Source, "heat", $"Item {twin.Item}, {twin.What}, and item {one.Item}, {one.What}, have one heat, {one.Heat}.", "Read the marking on both: a number is easily copied from the next row.", severity: Severity.Note);
        }

        foreach (var flanges in rows.Where(m => m.Words.Ware == Ware.Flange).GroupBy(m => m.Heat, StringComparer.OrdinalIgnoreCase))
        {
            if (flanges.FirstOrDefault(p => p.Size != flanges.First().Size) is { } second)
                yield return Found(second.Source, "heat", $"Item {flanges.First().Item} and item {second.Item}, {second.What}, NPS {flanges.First().Size} and NPS {second.Size}, have one heat, {second.Heat}.", "Read the marking on both: a melt may give both, and a number is easily copied.", severity: Severity.Note);
        }

        foreach (var pipes in rows.Where(m => m.Words.Ware == Ware.Pipe).GroupBy(m => m.Heat, StringComparer.OrdinalIgnoreCase))
        {
            if (pipes.FirstOrDefault(p => p.Size != pipes.First().Size) is { } second)
                yield return Found(second.Source, "heat", $"Item {pipes.First().Item} and item {second.Item}, pipe NPS {pipes.First().Size} and NPS {second.Size}, have one heat, {second.Heat}.", "Read the marking on both: a melt may give both, and a number is easily copied.", severity: Severity.Note);
        }
    }
}
