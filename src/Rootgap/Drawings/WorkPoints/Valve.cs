using Rootgap.Measure;

namespace Rootgap.Drawings;

public enum ValveKind
{
    Gate,
    Globe,
    Check,
    Ball,
    Butterfly,
}

/// <summary>A valve; the work point is its centre.</summary>
/// <param name="Kind">Gate, globe, check, ball or butterfly.</param>
/// <param name="IsWafer">Whether the drawing says that it is held between the flanges of its neighbours (wafer), or has flanges (flanged); null where it says neither: a butterfly valve mostly is held so.</param>
/// <param name="FaceToFace">Overrides the table, mm; null where the table tells it.</param>
/// <param name="Stem">Direction of the stem; null where the drawing does not say.</param>
/// <param name="Mass">From the maker's sheet, kg; null where unknown.</param>
public sealed record ValvePoint(ValveKind Kind, FittingEnds Ends, bool? IsWafer, double? FaceToFace, Vector? Stem, double? Mass, HoleOrientation Holes) : WorkPoint
{
    internal static readonly WorkPointKind OfFile = new("valve", ["kind", "ends", "face to face", "stem", "mass", "holes", "holes from", "test"], Read)
    {
        Ware = Ware.Valve,
        Required = ["kind"],
        Choices = [("kind", FileWords.ValveKinds), ("ends", FileWords.InLineEnds)],
        HasOwnEnds = true,
    };

    internal override WorkPointKind Written => OfFile;

    private static ValvePoint? Read(Fields f)
    {
        if (!f.Has("kind"))
            f.Error("missing-key", "to", "This valve has no kind.", $"Add `kind:`, one of: {string.Join(", ", FileWords.ValveKinds)}.");
        var kind = Array.IndexOf(FileWords.ValveKinds, f.Word("kind", FileWords.ValveKinds));
        var (length, stem, mass, holes) = (f.Length("face to face", Tolerance.Noise), f.Direction("stem", out _), f.Mass("mass"), f.Holes());
        bool? isWafer = f.Word("ends", FileWords.InLineEnds) switch { "wafer" => true, "flanged" => false, _ => null };
        var ends = f.FittingEnds(FileWords.InLineEnds, FittingEnds.Flanged);
        return kind < 0 ? null : new((ValveKind)kind, ends, isWafer, length, stem, mass, holes);
    }
}
