namespace Rootgap.Checks;

internal sealed class MatingFlangeSize : MatingFlanges
{
    public override string Name => "mating-flange-size";
    public override string Says => "Two end flanges that stand face to face have different sizes.";
    public override string Why => "Bolt circles differ from size to size (ASME B16.5); a reducing flange is another part.";

    private protected override string? Difference(in FreeEnd a, in FreeEnd b) => a.Size != b.Size ? $"NPS {b.Size} against {a.Size}" : null;
}
