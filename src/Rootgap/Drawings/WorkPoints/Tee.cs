using Rootgap.Measure;

namespace Rootgap.Drawings;

/// <summary>A tee. <paramref name="EnterBranch"/>: the line comes in at the branch, the next leg takes one run end.</summary>
/// <param name="Branch">Direction of the branch; null where the line enters by it.</param>
/// <param name="BranchSize">Of a reducing tee; null for a straight one.</param>
/// <param name="RunSize">Size of the run of a tee entered by its branch, where it is larger; null otherwise.</param>
public sealed record TeePoint(string? TeeName, Vector? Branch, NominalSize? BranchSize, bool EnterBranch, NominalSize? RunSize) : WorkPoint
{
    internal static readonly WorkPointKind OfFile = new("tee", ["branch", "branch size", "enter", "ends", "fitting class"], Read) { Ware = Ware.Tee, Choices = [("ends", FileWords.FittingEnds)] };

    internal override WorkPointKind Written => OfFile;

    public override string? Name => TeeName;

    internal override WorkPoint WithoutName() => this with { TeeName = null };

    internal override bool CanEndRun => !EnterBranch;

    internal override bool TakesSize => EnterBranch;

    private static TeePoint? Read(Fields f)
    {
        var enters = f.Word("enter", ["run", "branch"]) == "branch";
        var branch = f.Direction("branch", out _);
        if (enters && f.Has("branch"))
            f.Error("key-does-not-fit", "branch", "A tee entered by its branch has no other branch.", "Leave `branch` out: the next leg takes one run end, a run `from` its name the other.");
        else if (!enters && !f.Has("branch"))
            f.Error("missing-key", "to", "This tee has no branch direction.", "Add `branch:` with a direction, such as branch: east.");
        if (!enters && f.Has("size"))
            f.Error("key-does-not-fit", "size", "A tee has the size of its line.", "Write `branch size:` for a reducing tee.");
        return !enters && branch is null ? null : new(f.Text("name"), branch, f.Size("branch size"), enters, enters ? f.Size("size") : null);
    }
}
