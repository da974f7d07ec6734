using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>A drawing that goes on from itself.</summary>
internal sealed class ContinuesToItself : Rule
{
    public override string Name => "continues-to-itself";
    public override Severity Severity => Severity.Warn;
    public override string Says => "An end of the line is said to go on on this same drawing.";
    public override string Why => "The number of the next drawing was meant (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var drawing = fabrication.Route.Drawing;
        foreach (var run in drawing.Runs)
        {
            foreach (var (point, row) in run.Legs.Select(l => ((WorkPoint?)l.To, l.Source)).Prepend((run.Start.Ends, run.Start.Source)))
            {
                var on = point switch { WeldPoint w => w.Continues, OpenPoint o => o.Continues, _ => null };
                if (on is not null && string.Equals(on.Trim(), drawing.Number.Trim(), StringComparison.OrdinalIgnoreCase))
                    yield return Found(row, "continues", $"This end goes on on {on}, which is this drawing.", "Give the number of the next drawing.");
            }
        }
    }
}
