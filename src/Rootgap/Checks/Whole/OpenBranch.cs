using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>A branch on which nothing is drawn.</summary>
internal sealed class OpenBranch : Rule
{
    public override string Name => "open-branch";
    public override Severity Severity => Severity.Warn;
    public override string Says => "Nothing is drawn on the branch of a tee, an outlet or a stub-in (a note at a threaded outlet, which may take a gauge).";
    public override string Why => "A hole in the line that leads nowhere: a run was forgotten, or its cap or plug (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var drawing = fabrication.Route.Drawing;
        var used = new HashSet<string>(StringComparer.Ordinal);
        foreach (var run in drawing.Runs)
        {
            if (run.Start.From is { } from)
                used.Add(from);
            foreach (var leg in run.Legs)
            {
                if (leg.To is TieInPoint { With: { } with })
                    used.Add(with);
            }
        }

        foreach (var run in drawing.Runs)
        {
            foreach (var leg in run.Legs)
            {
                if (leg.To is not (TeePoint or OutletPoint or StubInPoint) || (leg.To.Name is { } name && used.Contains(name)))
                    continue;
                var takesGauge = leg.To is OutletPoint { Ends: FittingEnds.Threaded };
                yield return Found(leg.Source, "to", $"Nothing is drawn on the branch of this {leg.To.Word}.",
                    takesGauge ? "Say in a note what it takes, or draw the run that goes on from it." : "Draw the run that starts `from` it, were it only to a cap; or take it out.", "The line has a hole.", takesGauge ? Severity.Note : null);
            }
        }
    }
}
