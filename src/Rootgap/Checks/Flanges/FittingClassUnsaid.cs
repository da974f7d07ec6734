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
    public override string Says => "The drawing does not say the class of its forged fittings, which are counted as class 3000, and the list has another.";
    public override string Why => "Fittings of another class have other lengths (ASME B16.11; MSS SP-97): the pieces beside them are cut for class 3000.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var route = fabrication.Route;
        foreach (var c in route.Components)
        {
            if (c.Item is { Class.Length: > 0 } item && c.RatingClass.Length > 0 && c.RatingClass == c.Line.FittingClass && !item.Class.Contains(c.RatingClass, StringComparison.Ordinal) && Is(c, c.Source, route))
                yield return Found(c.Source, "to", $"Item {item.Item}, {item.What}, is of class {item.Class}, and the drawing does not say the class: it is counted as {c.RatingClass}.", $"Write `fitting class: {item.Class}` on the leg, the run or the line.", "The pieces beside it are cut for another length.");
        }
    }

    /// <summary>Whether neither leg nor run nor line says the class of a fitting.</summary>
    internal static bool Is(Part part, SourceRow row, Route route) =>
        part.RatingClass == part.Line.FittingClass && !row.Has("fitting class") && !route.Runs[part.Run].Run.Source.Has("fitting class") && !route.Drawing.Source.Has("line", "fitting class");
}
