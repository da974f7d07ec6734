using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Routes;
using Rootgap.Standards;

namespace Rootgap.Checks;

/// <summary>A fitting or flange listed in another stainless or chrome steel than the line is.</summary>
internal sealed class FittingGradeMismatch : ItemRule
{
    public override string Name => "fitting-grade-mismatch";
    public override Severity Severity => Severity.Warn;
    public override string Says => "A fitting, a flange or a stub end is listed in another alloy than the line's, of the same P-number: 304L in a line of 316L; or in plain steel where the line's is made for the cold: A105 in a line of A333-6.";
    public override string Why => "What goes through was the reason for the alloy, and it shows only in service (the list contradicts the drawing). One of another P-number is told where it is welded.";
    protected override string Key => "material";
    protected override string Otherwise => "The wrong alloy is welded in, and nobody sees it.";

    // Behind a lap joint the loose flange may be of anything.
    private protected override string? Against(MaterialItem item, in ItemUse use, Route route) =>
        IsPlainAmongCold(item, use) ? $"{item.Material} listed, the line is {use.Line.Material}, which is made for the cold" : OfAnotherAlloy(item, use);

    private static bool IsPlainAmongCold(MaterialItem item, in ItemUse use) =>
        use.Part is not (PipePiece or Gasket) && Metals.IsMadeForCold(use.Line.Material) && Metals.ColdestOf(item.Material) is not null && !Metals.IsMadeForCold(item.Material);

    private static string? OfAnotherAlloy(MaterialItem item, in ItemUse use) =>
        use.Part is PipePiece or Gasket or Valve or InLineItem or Flange { Stub: not null } || Metals.Alloy(use.Line.Material) is not { } drawn || Metals.PNumber(item.Material) != Metals.PNumber(use.Line.Material)
        || Metals.Marked(item.Material).Select(Metals.Alloy).ToList() is not { Count: > 0 } listed || listed.Any(a => a is null || a == drawn)
            ? null
            : $"{item.Material} listed, the line is {use.Line.Material}";
}
