using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>A rule that looks at every flange; it tells each row once, though a joint or a valve has two flanges.</summary>
public abstract class FlangeRule : Rule
{
    public sealed override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        SourceRow? last = null;
        foreach (var c in fabrication.Route.Components)
        {
            if (c is not Flange flange || c.Source == last || Look(flange, fabrication.Route.Drawing) is not { } finding)
                continue;
            last = c.Source;
            yield return finding;
        }
    }

    /// <summary>What is to be said of a flange; null where nothing is.</summary>
    protected abstract Finding? Look(Flange flange, Drawing drawing);

    /// <summary>The class as a number; 0 where it is none.</summary>
    private protected static int Class(Flange flange) => int.TryParse(flange.Line.Class, System.Globalization.CultureInfo.InvariantCulture, out var number) ? number : 0;
}
