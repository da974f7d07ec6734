using Rootgap.Measure;

namespace Rootgap.Drawings;

/// <summary>A socket-weld or threaded coupling; the work point is its middle.</summary>
public sealed record CouplingPoint : WorkPoint
{
    internal static readonly WorkPointKind OfFile = new("coupling", ["ends", "fitting class"], _ => new CouplingPoint())
    {
        Ware = Ware.Coupling,
        Choices = [("ends", FileWords.ForgedEnds)],
    };

    internal override WorkPointKind Written => OfFile;
}

/// <summary>A union; the work point is its middle. Its length is the maker's: the standard leaves it open.</summary>
/// <param name="FaceToFace">Over its two ends, made up, mm.</param>
/// <param name="Mass">From the maker's sheet, kg; null where unknown.</param>
public sealed record UnionPoint(double FaceToFace, double? Mass) : WorkPoint
{
    internal static readonly WorkPointKind OfFile = new("union", ["ends", "fitting class", "face to face", "mass"], Read)
    {
        Ware = Ware.Union,
        Required = ["face to face"],
        Choices = [("ends", FileWords.ForgedEnds)],
    };

    internal override WorkPointKind Written => OfFile;

    private static UnionPoint? Read(Fields f)
    {
        if (!f.Has("face to face"))
            f.Error("missing-key", "to", "No standard gives the length of a union made up.", "Add `face to face:` over its two ends, from the maker's sheet or from the union in hand.");
        var (length, mass) = (f.Length("face to face", Tolerance.Noise), f.Mass("mass"));
        return length is { } over ? new(over, mass) : null;
    }
}

/// <summary>A threaded plug, screwed straight into the fitting before it; its work point is its outer end.</summary>
public sealed record PlugPoint : WorkPoint
{
    internal static readonly WorkPointKind OfFile = new("plug", [], _ => new PlugPoint()) { Ware = Ware.Plug, EndsRun = true };

    internal override WorkPointKind Written => OfFile;
}
