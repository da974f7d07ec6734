using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

internal sealed class OutletFullSize : Rule
{
    public override string Name => "outlet-full-size";
    public override Severity Severity => Severity.Note;
    public override string Says => "An outlet or a stub-in of the same size as its header.";
    public override string Why => "At full size a tee is the usual fitting: the hole takes half the header away and the saddle runs round its sides (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var run in fabrication.Route.Runs)
        {
            for (var i = 0; i < run.Sizes.Count; i++)
            {
                var leg = run.Run.Legs[i];
                if (leg.To is OutletPoint o && o.Size == run.Sizes[i] || leg.To is StubInPoint s && s.Size == run.Sizes[i])
                    yield return Found(leg.Source, "size", $"This {leg.To.Word} is NPS {run.Sizes[i]}, as its header is.", "Ask whether a tee is meant.");
            }
        }
    }
}
