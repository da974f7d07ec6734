using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Site;

namespace Rootgap.Checks;

/// <summary>A loop whose final-fit welds leave out a direction that its pipes have.</summary>
internal sealed class FinalFitDirectionMissing : Rule
{
    public override string Name => "final-fit-direction-missing";
    public override Severity Severity => Severity.Warn;
    public override string Says => "The final-fit welds between two fixed ends leave out a direction in which the line may be out: a warning where bolted joints and hi-lo on the way cannot take that up by the forecast, else a note; a note too where one of the ends goes on in another drawing.";
    public override string Why => "Extra pipe is cut along its own weld's pipe and takes up nothing square to it (common practice: one final-fit weld a direction). How much may be out is the forecast's: docs/forecast.md has its limits and their sources.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var closing in DeskForecast.Of(fabrication)?.Closings ?? [])
        {
            var joint = closing.Opening.Joint;
            foreach (var missing in closing.Opening.Missing)
            {
                var isTaken = missing.Opening95 <= missing.TakenUp;
                // What goes on in another drawing stands no faster than this line does.
                var isLoose = closing.Opening.From.Any(fabrication.Route.GoesOn);
                yield return Found(joint.Source, joint.Source.Has("end") ? "end" : "begin",
                    Say(fabrication.Units, $"{joint.Id} may stand {missing.Opening95:len0} {Compass.Both(missing.Direction)}, and no final-fit weld takes that up; bolted joints and welds on the way {(isTaken ? "can" : Say(fabrication.Units, $"take up {missing.TakenUp:len0}, which is not enough"))}."),
                    $"A final-fit weld on {string.Join(" or ", missing.Legs.Select(l => fabrication.Route.Drawing.PlaceOf(l.Path)))} would take it up; `rootgap forecast` says what else helps.",
                    isTaken ? "" : "The last spool is forced in, or comes back.", isTaken || isLoose ? Severity.Note : Severity.Warn);
            }
        }
    }
}
