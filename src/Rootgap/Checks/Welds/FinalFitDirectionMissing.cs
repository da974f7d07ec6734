using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Site;
using Rootgap.Site.Forecasting;

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
        var notes = new List<(ForecastClosing Closing, MissingDirection Missing, bool IsTaken)>();
        foreach (var closing in DeskForecast.Of(fabrication)?.Closings ?? [])
        {
            foreach (var missing in closing.Opening.Missing)
            {
                var isTaken = missing.Opening95 <= missing.TakenUp;
                // What goes on in another drawing stands no faster than this line does.
                if (isTaken || closing.Opening.From.Any(fabrication.Route.GoesOn))
                {
                    notes.Add((closing, missing, isTaken));
                    continue;
                }

                yield return At(closing, Say(fabrication.Units, $"{closing.Opening.Joint.Id} may stand {missing.Opening95:len0} {Compass.Both(missing.Direction)}, and no final-fit weld takes that up; bolted joints and welds on the way take up {missing.TakenUp:len0}, which is not enough."),
                    fabrication, [missing], "The last spool is forced in, or comes back.", Severity.Warn);
            }
        }

        // One line a drawing: each opening of a line with several ends would have its own two or three.
        foreach (var isTaken in (bool[])[false, true])
        {
            var alike = notes.FindAll(n => n.IsTaken == isTaken);
            if (alike.Count == 0)
                continue;
            var each = alike.GroupBy(n => n.Closing.Opening.Joint.Id, StringComparer.Ordinal)
                .Select(g => $"{g.Key} may stand {string.Join(" and ", g.Select(n => Say(fabrication.Units, $"{n.Missing.Opening95:len0} {Compass.Both(n.Missing.Direction)}")))}");
            yield return At(alike[0].Closing, $"{string.Join(", ", each)}, and no final-fit weld takes that up; bolted joints and welds on the way {(isTaken ? "can" : "take up less")}.", fabrication, [.. alike.Select(n => n.Missing)], "", Severity.Note);
        }
    }

    private Finding At(ForecastClosing closing, string message, Fabrication fabrication, IReadOnlyList<MissingDirection> missing, string otherwise, Severity severity)
    {
        var joint = closing.Opening.Joint;
        var legs = RowPath.Legs(missing.SelectMany(m => m.Legs).Select(l => l.Path).OrderBy(p => p.Run).ThenBy(p => p.Leg), run => fabrication.Route.Drawing.PlaceOf(RowPath.OfRun(run)));
        return Found(joint.Source, joint.Source.Has("end") ? "end" : "begin", message, $"A final-fit weld on {legs} would take it up; `rootgap forecast` says what else helps.", otherwise, severity);
    }
}
