using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

/// <summary>Two end flanges of different runs that stand face to face.</summary>
public abstract class MatingFlanges : Rule
{
    public sealed override Severity Severity => Severity.Stop;

    public sealed override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var pair in FreeEnd.Pairs(fabrication.Route))
        {
            var (a, b) = (pair.First, pair.Second);
            if (!pair.Meet || a.Point is not FlangePoint || b.Point is not FlangePoint || Difference(a, b) is not { } difference)
                continue;
            yield return Found(b.Source, "to", $"This flange of run {b.Run.Name} stands against that of run {a.Run.Name}: {difference}.", "Mend the one that is wrong.", "The two do not bolt together.");
        }
    }

    /// <summary>What differs, in words; null where nothing does.</summary>
    private protected abstract string? Difference(in FreeEnd a, in FreeEnd b);
}
