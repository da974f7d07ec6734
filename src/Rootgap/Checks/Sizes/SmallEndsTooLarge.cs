using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

internal sealed class SmallEndsTooLarge : Rule
{
    public override string Name => "small-fitting-too-large";
    public override Severity Severity => Severity.Note;
    public override string Says => "Socket-weld or threaded fittings above NPS 2.";
    public override string Why => "They are kept to NPS 2 and less in most specifications, though the table goes to NPS 4 (ASME B16.11, common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var run in fabrication.Route.Runs)
        {
            for (var i = 0; i < run.Sizes.Count; i++)
            {
                var leg = run.Run.Legs[i];
                if (leg.To is ElbowPoint { Bend: null } or TeePoint or CapPoint && leg.Line.Ends is FittingEnds.Socket or FittingEnds.Threaded && run.Sizes[i].Inches > 2)
                    yield return Found(leg.Source, "to", $"A {(leg.Line.Ends == FittingEnds.Socket ? "socket-weld" : "threaded")} {leg.To.Word} NPS {run.Sizes[i]} is above the usual limit of NPS 2.", "Ask whether butt-weld fittings are meant.");
            }
        }
    }
}
