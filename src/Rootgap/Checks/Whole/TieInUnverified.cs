using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

internal sealed class TieInUnverified : Rule
{
    public override string Name => "tie-in-unverified";
    public override Severity Severity => Severity.Note;
    public override string BeforeCutting => "welded to pipe that stands already: its place, size and wall are measured first";
    public override string Says => "A run begins or ends with a weld to an existing pipe.";
    public override string Why => "Place, size, wall, roundness and contents of a standing line are measured at site before anything is cut to it (common practice; hot work by permit and qualified procedure).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var run in fabrication.Route.Drawing.Runs)
        {
            if (run.Start.Ends is WeldPoint { Continues: null })
                yield return One(run.Start.Source);
            if (run.Legs is [.., { To: WeldPoint { Continues: null } } last])
                yield return One(last.Source);
        }
    }

    private Finding One(SourceRow row) => Found(row, "to", "This end is welded to a pipe that stands already.",
        "Measure its place, size and wall at site first, or name the drawing that goes on: `continues:`.", "The standing pipe is not where, or not what, its drawing says.");
}
