using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>A valve on a small branch that hangs on its header.</summary>
internal sealed class SmallBranchUnsupported : Rule
{
    private static readonly NominalSize Small = NominalSize.OfInches(1.5);

    public override string Name => "small-branch-unsupported";
    public override Severity Severity => Severity.Note;
    public override string Says => "A branch of NPS 1-1/2 or less, on a header at least two times as large, carries a valve.";
    public override string Why => "The valve shakes on a thin root and the weld cracks; small branches with a mass at their end are braced to the header (common practice). Whether a brace is needed is for the engineer to say.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var route = fabrication.Route;
        foreach (var run in route.Runs)
        {
            if (run.Run.Start.From is not { } from || run.Sizes[0] > Small)
                continue;
            var header = HeaderSize(route, from);
            if (header.Inches < 2 * run.Sizes[0].Inches || run.Run.Legs.Any(l => l.To is SupportPoint))
                continue;
            foreach (var leg in run.Run.Legs)
            {
                if (leg.To is not ValvePoint)
                    continue;
                yield return Found(leg.Source, "to", $"This valve hangs on an NPS {run.Sizes[0]} branch of an NPS {header} header, and no brace is drawn.", "Ask whether it is braced to the header.");
                break;
            }
        }
    }

    private static NominalSize HeaderSize(Route route, string name)
    {
        foreach (var run in route.Runs)
        {
            for (var l = 0; l < run.Run.Legs.Count; l++)
            {
                if (run.Run.Legs[l].To.Name == name)
                    return run.Sizes[l];
            }
        }

        return default;
    }
}
