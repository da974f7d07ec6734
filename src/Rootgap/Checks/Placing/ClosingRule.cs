using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.Checks;

/// <summary>A closing error as placing the line finds it, with the rows that would take it away named beside it: who reads the finding alone knows where to look.</summary>
internal abstract class ClosingRule : Rule
{
    /// <summary>More rows than this are counted and not named.</summary>
    private const int Named = 8;

    public sealed override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var found = fabrication.Route.Findings.Where(f => f.Rule == Name).ToList();
        if (found.Count == 0)
            return found;
        var misses = ClosingError.In(fabrication.Route);
        return found.ConvertAll(f => misses.Find(m => m.Row.Path == f.At && m.Row[m.Key] == f.Where) is { } miss ? f with { Remedy = Where(fabrication, miss, misses) + f.Remedy } : f);
    }

    private static string Where(Fabrication fabrication, ClosingError miss, List<ClosingError> misses)
    {
        var same = misses.FindAll(m => (m.Error - miss.Error).Length <= Tolerance.Closing);
        var (slips, others) = miss.Explained(fabrication.Units, same);
        List<ClosingError.Explanation> rows = [.. slips, .. others];
        if (rows.Count == 0)
            return "No single figure or direction on this way closes it: two are wrong, a leg is missing, or the place is. ";
        var named = rows.Take(Named).Select(row => $"{fabrication.Route.Drawing.PlaceOf(row.Row.Path)}: {row.Otherwise}");
        var more = rows.Count > Named ? FormattableString.Invariant($"; and {rows.Count - Named} more") : "";
        return $"{(rows.Count == 1 ? "It would close with" : "It would close with any one of these:")} {string.Join("; ", named)}{more}. ";
    }
}
