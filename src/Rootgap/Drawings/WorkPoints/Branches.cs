using Rootgap.Measure;

namespace Rootgap.Drawings;

/// <summary>An integrally reinforced branch outlet on the header, or a half coupling set on it.</summary>
public sealed record OutletPoint(string? OutletName, Vector Branch, NominalSize Size, FittingEnds Ends) : WorkPoint
{
    internal static readonly WorkPointKind OfFile = new("outlet", ["branch", "ends", "fitting class", "height"], Read)
    {
        Ware = Ware.Outlet,
        Required = ["branch", "size"],
        Choices = [("ends", FileWords.FittingEnds)],
        IsPassedThrough = true,
        CanBeMadeUpTo = false,
        HasOwnEnds = true,
    };

    internal override WorkPointKind Written => Drain is { } drain ? drain.IsVent ? DrainRow.OfVent : DrainRow.OfDrain : IsHalfCoupling ? OfHalfCoupling : OfFile;

    internal static readonly WorkPointKind OfHalfCoupling = new("half coupling", ["branch", "ends", "fitting class", "height"], ReadHalfCoupling)
    {
        Ware = Ware.HalfCoupling,
        Required = ["branch", "size"],
        Choices = [("ends", FileWords.ForgedEnds)],
        IsPassedThrough = true,
        CanBeMadeUpTo = false,
        HasOwnEnds = true,
    };

    /// <summary>A half coupling, welded on by its plain end.</summary>
    public bool IsHalfCoupling { get; init; }

    /// <summary>From the header's outside to its end along the branch, mm, in place of the table's; null where the drawing gives none. No table has it for an outlet that leans.</summary>
    public double? Height { get; init; }

    /// <summary>What stands on it where it is a drain or a vent in one row; null where a run of its own says so.</summary>
    public DrainRow? Drain { get; init; }

    public override string? Name => OutletName;

    internal override WorkPoint WithoutName() => this with { OutletName = null };

    internal override bool TakesSize => true;

    private static OutletPoint? Read(Fields f) =>
        BranchOf(f, "outlet") is { } branch ? new(f.Text("name"), branch.Side, branch.Size, f.FittingEnds(FileWords.FittingEnds, FittingEnds.Butt)) { Height = f.Length("height", Tolerance.Noise) } : null;

    private static OutletPoint? ReadHalfCoupling(Fields f) =>
        BranchOf(f, "half coupling") is { } branch ? new(f.Text("name"), branch.Side, branch.Size, f.FittingEnds(FileWords.ForgedEnds, FittingEnds.Socket)) { IsHalfCoupling = true, Height = f.Length("height", Tolerance.Noise) } : null;

    /// <summary>Side and size of a branch that is set on a header; null where one is missing, which is told.</summary>
    internal static (Vector Side, NominalSize Size)? BranchOf(Fields f, string word)
    {
        if (!f.Has("branch"))
            f.Error("missing-key", "to", $"This {word} has no branch direction.", "Add `branch:` with a direction, such as branch: up.");
        if (!f.Has("size"))
            f.Error("missing-key", "to", $"This {word} has no size.", "Add `size:`, the size of the branch.");
        return f.Direction("branch", out _) is { } side && f.Size("size") is { } size ? (side, size) : null;
    }
}

/// <summary>Pipe set on the header and welded.</summary>
/// <param name="HasPad">A reinforcing pad lies round it.</param>
/// <param name="PadWidth">From the branch's outside to the pad's edge, mm; null where the drawing does not say.</param>
/// <param name="PadThickness">mm; null for the header's wall.</param>
public sealed record StubInPoint(string? StubName, Vector Branch, NominalSize Size, bool HasPad, double? PadWidth, double? PadThickness) : WorkPoint
{
    internal static readonly WorkPointKind OfFile = new("stub-in", ["branch", "pad", "pad width", "pad thickness"], Read)
    {
        Ware = Ware.Pad,
        Required = ["branch", "size"],
        IsPassedThrough = true,
        CanBeMadeUpTo = false,
    };

    internal override WorkPointKind Written => OfFile;

    public override string? Name => StubName;

    internal override WorkPoint WithoutName() => this with { StubName = null };

    internal override bool TakesSize => true;

    private static StubInPoint? Read(Fields f)
    {
        var (pad, width, thickness) = (f.YesNo("pad"), f.Length("pad width", Tolerance.Noise), f.Length("pad thickness", Tolerance.Noise));
        if (pad == false && (width ?? thickness) is not null)
            f.Error("key-does-not-fit", width is null ? "pad thickness" : "pad width", "This stub-in is said to have no pad.", "Write `pad: yes`, or leave its measures out.");
        return OutletPoint.BranchOf(f, "stub-in") is { } branch ? new(f.Text("name"), branch.Side, branch.Size, pad ?? (width ?? thickness) is not null, width, thickness) : null;
    }
}
