using Rootgap.Measure;

namespace Rootgap.Drawings;

/// <summary>Something of its own length in the line that no other kind speaks of: a strainer, a meter, an expansion joint, a plate between two flanges; the work point is its middle.</summary>
/// <param name="What">What it is, in the drawing's own words; a row of the material list is found by them.</param>
/// <param name="IsWafer">It has no flanges of its own: the studs of its neighbours go past it.</param>
/// <param name="FaceToFace">Over its faces or its ends, mm; no standard tells it.</param>
/// <param name="Mass">From the maker's sheet, kg; null where unknown.</param>
public sealed record InLineItemPoint(string What, FittingEnds Ends, bool IsWafer, double FaceToFace, double? Mass, HoleOrientation Holes) : WorkPoint
{
    internal static readonly WorkPointKind OfFile = new("in-line item", ["what", "ends", "face to face", "mass", "holes", "holes from", "test"], Read)
    {
        Ware = Ware.InLineItem,
        Required = ["what", "face to face"],
        Choices = [("ends", FileWords.InLineEnds)],
        HasOwnEnds = true,
    };

    /// <summary>The short word, with the length by its plain name.</summary>
    internal static readonly WorkPointKind OfShortWord = OfFile with { Word = "in-line", Keys = [.. OfFile.Keys.Select(k => k == "face to face" ? "length" : k)], Required = ["what", "length"], IsOtherWord = true };

    /// <summary>What a joint may hold between its two flanges, by its thickness alone.</summary>
    internal static readonly string[] InJoints = ["spacer", "spectacle blind", "orifice plate"];

    /// <summary>A plate in a joint: clamped between the two flanges, with a gasket on each side.</summary>
    internal static InLineItemPoint Between(string what, double thickness, double? mass, HoleOrientation holes) => new(what, FittingEnds.Flanged, IsWafer: true, thickness, mass, holes);

    /// <summary>Words that are offered for what it is; any other will do.</summary>
    internal static readonly string[] Usual = ["strainer", "flow meter", "expansion joint", "orifice plate", "spacer", "spectacle blind", "instrument"];

    internal override WorkPointKind Written => OfFile;

    private static InLineItemPoint? Read(Fields f)
    {
        if (!f.Has("what"))
            f.Error("missing-key", "to", "This in-line item does not say what it is.", "Add `what:`, such as strainer, flow meter, expansion joint, orifice plate, spacer.");
        if (!f.Has("face to face") && !f.Has("length"))
            f.Error("missing-key", "to", "No standard gives the length of this in-line item.", "Add `face to face:` from the maker's sheet: over its faces, or over its ends where it has none.");
        var (what, length, mass, holes) = (f.Text("what"), f.Length("face to face", Tolerance.Noise) ?? f.Length("length", Tolerance.Noise), f.Mass("mass"), f.Holes());
        var isWafer = f.Word("ends", FileWords.InLineEnds) == "wafer";
        var ends = isWafer ? FittingEnds.Flanged : f.FittingEnds(FileWords.InLineEnds, FittingEnds.Flanged);
        return what is not { Length: > 0 } || length is not { } over ? null : new(what, ends, isWafer, over, mass, holes);
    }
}
