using Rootgap.App.Look;
using Rootgap.Comparing;

namespace Rootgap.App.Spools;

/// <summary>What differs between two versions of a drawing, in words for a list.</summary>
internal static class VersionWords
{
    /// <summary>Pieces first, then parts, joints, supports, ends and items; a line each.</summary>
    public static IEnumerable<string> Differences(Comparison c, Choices choices)
    {
        if (c.Old.Revision != c.New.Revision)
            yield return $"revision {c.Old.Revision} to {c.New.Revision}";
        foreach (var p in c.Pieces.Where(p => !p.IsSame))
        {
            yield return p.Old is null ? $"{p.New!.Piece} is new" : p.New is null ? $"{p.Old.Piece} is gone"
                : $"{p.New.Piece} {(p.Differences.Count > 0 ? string.Join("; ", p.Differences) : $"{choices.LengthWithUnit(Math.Abs(p.By))} {(p.By > 0 ? "longer" : "shorter")}")}";
        }

        foreach (var d in c.Components.Concat(c.Joints.Where(j => j.Kind == "changed")).Concat(c.Supports).Concat(c.Ends).Concat(c.Items))
            yield return d.Kind == "changed" ? d.Says : $"{d.Says} {d.Kind}";
    }
}
