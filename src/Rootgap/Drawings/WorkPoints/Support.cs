using Rootgap.Measure;

namespace Rootgap.Drawings;

/// <summary>How a support takes hold of its pipe, in the order of its words in the file.</summary>
public enum SupportKind
{
    /// <summary>Under the pipe; slides on its steel.</summary>
    Shoe,

    /// <summary>The pipe slides through along its own line, and goes nowhere else.</summary>
    Guide,

    /// <summary>Nothing moves there.</summary>
    Anchor,

    /// <summary>Holds from above.</summary>
    Hanger,

    /// <summary>A stub of pipe set square on the line's pipe.</summary>
    Trunnion,

    /// <summary>An ear on the pipe.</summary>
    Lug,

    /// <summary>Bolted round the pipe.</summary>
    Clamp,
}

/// <summary>A support or an attachment on a straight pipe, which goes through uncut; the work point lies on the pipe's middle line, at the middle of the support.</summary>
/// <param name="Tag">The support drawing's name for it; empty where none is given.</param>
/// <param name="IsWelded">It has a weld on the pipe.</param>
/// <param name="IsWeldedAtSite">That weld is made at site.</param>
/// <param name="Side">Side of the pipe on which it stands, as written; null where its kind tells.</param>
/// <param name="Height">From the pipe's outside to what it stands on or hangs from, mm; null where the support drawing has it.</param>
/// <param name="Length">How much of the pipe it covers, mm; null where the support drawing has it.</param>
/// <param name="Mass">kg; null where nobody says.</param>
public sealed record SupportPoint(SupportKind Kind, string Tag, bool IsWelded, bool IsWeldedAtSite, Vector? Side, double? Height, double? Length, double? Mass) : WorkPoint
{
    internal static readonly WorkPointKind OfFile = new("support", ["kind", "attach", "tag", "side", "height", "length", "mass"], Read)
    {
        Ware = Ware.Support,
        Required = ["kind"],
        Choices = [("kind", FileWords.SupportKinds)],
        IsPassedThrough = true,
        CanBeMadeUpTo = false,
    };

    /// <summary>What leans more than this from the level lies in no shoe and hangs on no rod without a stop, radians.</summary>
    private static readonly double Steep = Angles.ToRadians(45);

    internal override WorkPointKind Written => OfFile;

    /// <summary>The kind in the trade's word.</summary>
    public string KindWord => FileWords.SupportKinds[(int)Kind];

    /// <summary>Whether the weight of a pipe that goes along a direction can rest on it: a shoe, a guide or a hanger lets an upright one slide.</summary>
    public bool Carries(Vector direction) => Kind is SupportKind.Anchor or SupportKind.Trunnion or SupportKind.Lug or SupportKind.Clamp || !IsSteep(direction);

    internal static bool IsSteep(Vector direction) => Math.Abs(Math.Asin(Math.Clamp(direction.Unit.Z, -1, 1))) > Steep;

    /// <summary>The side of a pipe along a direction on which it stands: as written, else under it, a hanger over it; null on an upright pipe, where the drawing has to say.</summary>
    public Vector? SideOn(Vector direction)
    {
        var side = Side ?? (Kind == SupportKind.Hanger ? Vector.Up : -Vector.Up);
        var square = side.SquareTo(direction.Unit);
        return (Side is null && IsSteep(direction)) || square.Length < 0.2 * side.Length ? null : square.Unit;
    }

    private static SupportPoint? Read(Fields f)
    {
        if (!f.Has("kind"))
            f.Error("missing-key", "to", "This support has no kind.", $"Add `kind:`, one of: {string.Join(", ", FileWords.SupportKinds)}.");
        var kind = (SupportKind)Array.IndexOf(FileWords.SupportKinds, f.Word("kind", FileWords.SupportKinds));
        var attach = f.Word("attach", FileWords.Attachments);
        var (side, height, length, mass) = (f.Direction("side", out _), f.Length("height", Tolerance.Noise), f.Length("length", Tolerance.Noise), f.Mass("mass"));
        var end = f.Word("end", FileWords.Welds);
        if ((int)kind < 0)
            return null;
        var word = FileWords.SupportKinds[(int)kind];
        if (attach == "clamped" && kind is SupportKind.Trunnion or SupportKind.Lug)
            f.Error("impossible-value", "attach", $"A {word} is welded to its pipe.", "Leave `attach` out, or write `kind: clamp`.");
        if (attach == "welded" && kind == SupportKind.Clamp)
            f.Error("impossible-value", "attach", "A clamp is bolted round its pipe: nothing is welded.", "Leave `attach` out, or write the kind of what is welded on.");
        var isWelded = attach is null ? kind is SupportKind.Shoe or SupportKind.Anchor or SupportKind.Trunnion or SupportKind.Lug : attach == "welded";
        if (end == "final-fit")
            f.Error("impossible-value", "end", "The weld of a support closes no line: it is no final fit.", "Write `end: field` where it is welded on at site, or leave it out.");
        return new(kind, f.Text("tag") ?? "", isWelded, isWelded && end == "field", side?.Unit, height, length, mass);
    }
}
