using Rootgap.Drawings;

namespace Rootgap.Checks;

internal sealed class MatingFlangeFacing : MatingFlanges
{
    public override string Name => "mating-flange-facing";
    public override string Says => "Two end flanges that stand face to face have different facings.";
    public override string Why => "A raised face against a flat cast one breaks it, and a ring joint seals only against a ring joint (ASME B16.5 6.4, common practice).";

    private protected override string? Difference(in FreeEnd a, in FreeEnd b) => a.Line.Facing != b.Line.Facing ? $"{Words.Of(b.Line.Facing)} against {Words.Of(a.Line.Facing)}" : null;
}
