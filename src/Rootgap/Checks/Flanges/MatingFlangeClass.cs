namespace Rootgap.Checks;

internal sealed class MatingFlangeClass : MatingFlanges
{
    public override string Name => "mating-flange-class";
    public override string Says => "Two end flanges that stand face to face have different classes.";
    public override string Why => "Bolt circles and holes differ from class to class (ASME B16.5).";

    private protected override string? Difference(in FreeEnd a, in FreeEnd b) => a.Line.Class != b.Line.Class ? $"class {b.Line.Class} against {a.Line.Class}" : null;
}
