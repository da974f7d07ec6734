namespace Rootgap.Drawings;

public enum ElbowRadius
{
    Long,
    Short,
    ThreeD,
    FiveD,
}

/// <summary>An elbow; its turn is that from this leg to the next.</summary>
public sealed record ElbowPoint(ElbowRadius Radius) : WorkPoint
{
    internal static readonly WorkPointKind OfFile = new("elbow", ["radius", "ends", "fitting class"], Read) { Ware = Ware.Elbow, Choices = [("ends", FileWords.FittingEnds)] };

    internal override WorkPointKind Written => OfFile;

    internal override bool CanEndRun => false;

    private static ElbowPoint Read(Fields f) => new(f.Word("radius", FileWords.Radii) switch
    {
        "short" => ElbowRadius.Short,
        "3d" => ElbowRadius.ThreeD,
        "5d" => ElbowRadius.FiveD,
        _ => ElbowRadius.Long,
    });
}
