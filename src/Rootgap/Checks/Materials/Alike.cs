using Rootgap.Drawings;
using Rootgap.Fabricating;

namespace Rootgap.Checks;

/// <summary>Rows of the material list that a part could be just as well: told apart only by material, heat or note.</summary>
internal static class Alike
{
    public static bool Are(MaterialItem a, MaterialItem b) =>
        a.Words == b.Words && (a.Words.Ware is not (Ware.InLineItem or Ware.Support) || a.What.Equals(b.What, StringComparison.OrdinalIgnoreCase)) && a.Size == b.Size && a.Size2 == b.Size2 && a.Schedule == b.Schedule && a.Class == b.Class && a.Bore == b.Bore && a.Length == b.Length;

    /// <summary>Listed and needed of a row together with all that are alike, where the drawing does not say which is which.</summary>
    public static (double Listed, double Needed) Together(IReadOnlyList<MaterialRow> rows, MaterialRow row)
    {
        var (listed, needed) = (row.Listed ?? 0, row.Needed);
        if (!row.IsGuess && row.UsedBy.Count > 0)
            return (listed, needed);
        foreach (var other in rows)
        {
            if (!ReferenceEquals(other, row) && other.Item is { } item && Are(item, row.Item!))
                (listed, needed) = (listed + (other.Listed ?? 0), needed + other.Needed);
        }

        return (listed, needed);
    }

    public static bool HasOne(IReadOnlyList<MaterialRow> rows, MaterialRow row)
    {
        foreach (var other in rows)
        {
            if (!ReferenceEquals(other, row) && other.Item is { } item && Are(item, row.Item!))
                return true;
        }

        return false;
    }
}
