using Rootgap.Measure;

namespace Rootgap.Drawings;

/// <summary>A tee. <paramref name="EnterBranch"/>: the line comes in at the branch, the next leg takes one run end.</summary>
/// <param name="Branch">Direction of the branch; null where the line enters by it.</param>
/// <param name="BranchSize">Of a reducing tee; null for a straight one.</param>
/// <param name="RunSize">Size of the run of a tee entered by its branch, where it is larger; null otherwise.</param>
public sealed record TeePoint(string? TeeName, Vector? Branch, NominalSize? BranchSize, bool EnterBranch, NominalSize? RunSize) : WorkPoint
{
    internal static readonly WorkPointKind OfFile = new("tee", ["branch", "branch size", "enter", "ends", "fitting class"], Read) { Ware = Ware.Tee, Choices = [("ends", FileWords.FittingEnds)] };

    internal static readonly WorkPointKind OfLateral = new("lateral", ["branch", "branch size", "long end", "short end", "branch end", "mass"], ReadLateral)
    {
        Ware = Ware.Tee,
        Required = ["branch", "long end", "short end", "branch end"],
    };

    internal override WorkPointKind Written => Lateral is null ? OfFile : OfLateral;

    /// <summary>The maker's measures of a lateral, whose branch leans; null for a tee.</summary>
    public LateralSheet? Lateral { get; init; }

    public override string? Name => TeeName;

    internal override WorkPoint WithoutName() => this with { TeeName = null };

    internal override bool CanEndRun => !EnterBranch;

    internal override bool TakesSize => EnterBranch;

    private static TeePoint? ReadLateral(Fields f)
    {
        if (!f.Has("branch"))
            f.Error("missing-key", "to", "This lateral has no branch direction.", "Add `branch:` with a direction that leans, such as branch: {east: 1, north: 1}.");
        foreach (var key in OfLateral.Required.Skip(1).Where(k => !f.Has(k)))
            f.Error("missing-key", "to", $"No standard gives the measures of a lateral: its {key} is missing.", $"Add `{key}:` from the maker's sheet: from where the middle lines meet to that end.");
        var (name, size, mass) = (f.Text("name"), f.Size("branch size"), f.Mass("mass"));
        return f.Direction("branch", out _) is { } branch && f.Length("long end", Tolerance.Noise) is { } longEnd && f.Length("short end", Tolerance.Noise) is { } shortEnd && f.Length("branch end", Tolerance.Noise) is { } branchEnd
            ? new(name, branch, size, EnterBranch: false, RunSize: null) { Lateral = new(longEnd, shortEnd, branchEnd, mass) }
            : null;
    }

    private static TeePoint? Read(Fields f)
    {
        var enters = f.Word("enter", ["run", "branch"]) == "branch";
        var branch = f.Direction("branch", out _);
        if (enters && f.Has("branch"))
            f.Error("key-does-not-fit", "branch", "A tee entered by its branch has no other branch.", "Leave `branch` out: the next leg takes one run end, a run `from` its name the other.");
        else if (!enters && !f.Has("branch"))
            f.Error("missing-key", "to", "This tee has no branch direction.", "Add `branch:` with a direction, such as branch: east.");
        return !enters && branch is null ? null : new(f.Text("name"), branch, f.Size("branch size"), enters, enters ? f.Size("size") : null);
    }
}

/// <summary>What a maker's sheet says of a lateral, from where its middle lines meet, mm.</summary>
/// <param name="LongEnd">To the end of its run to which the branch leans.</param>
/// <param name="ShortEnd">To the other end of its run.</param>
/// <param name="BranchEnd">To the end of its branch.</param>
/// <param name="Mass">kg; null where unknown.</param>
public sealed record LateralSheet(double LongEnd, double ShortEnd, double BranchEnd, double? Mass);
