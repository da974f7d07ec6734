using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>A forged fitting whose class only the list says.</summary>
internal sealed class FittingClassUnsaid : Rule
{
    public override string Name => "fitting-class-unsaid";
    public override Severity Severity => Severity.Note;
    public override string Says => "The drawing does not say the class of its forged fittings, which are counted as class 3000, and the list has another; a warning at the row where the other fittings of its size are of one other class.";
    public override string Why => "Fittings of another class have other lengths (ASME B16.11; MSS SP-97): the pieces beside them are cut for class 3000.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var route = fabrication.Route;
        HashSet<int>? told = null;
        foreach (var c in route.Components)
        {
            if (c.Item is { Class.Length: > 0 } item && c.RatingClass.Length > 0 && c.RatingClass == c.Line.FittingClass && !item.Class.Contains(c.RatingClass, StringComparison.Ordinal) && Is(c, c.Source, route))
            {
                if (Others(route.Drawing.Materials, item) is { } others)
                {
                    if ((told ??= []).Add(item.Item))
                        yield return Found(item.Source, "class", $"Item {item.Item}, {item.What}, is of class {item.Class}, and the other fittings of its size are of class {others}.", "Look which of the two is meant.", "The pieces beside it are cut for another length.", Severity.Warn);
                    continue;
                }

                yield return Found(c.Source, "to", $"Item {item.Item}, {item.What}, is of class {item.Class}, and the drawing does not say the class: it is counted as {c.RatingClass}.", $"Write `fitting class: {item.Class}` on the leg, the run or the line.", "The pieces beside it are cut for another length.");
            }
        }
    }

    /// <summary>The one class that the list has for two rows or more of other elbows, tees, couplings and unions of its size; null where there is no such class.</summary>
    private static string? Others(IReadOnlyList<MaterialItem> list, MaterialItem item) =>
        list.Where(m => !ReferenceEquals(m, item) && IsFitting(m) && m.Size == item.Size && m.Class.Length > 0).ToList() is { Count: >= 2 } others && IsFitting(item) && others.TrueForAll(m => m.Class == others[0].Class) && others[0].Class != item.Class ? others[0].Class : null;

    private static bool IsFitting(MaterialItem row) => row.Words.Ware is Ware.Elbow or Ware.Tee or Ware.Coupling or Ware.Union;

    /// <summary>Whether neither leg nor run nor line says the class of a fitting.</summary>
    internal static bool Is(Part part, SourceRow row, Route route) =>
        part.RatingClass == part.Line.FittingClass && !row.Has("fitting class") && !route.Runs[part.Run].Run.Source.Has("fitting class") && !route.Drawing.Source.Has("line", "fitting class");
}
