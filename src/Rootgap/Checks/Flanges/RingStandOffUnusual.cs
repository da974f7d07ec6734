using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Routes;
using Rootgap.Standards;

namespace Rootgap.Checks;

/// <summary>A ring joint whose stated stand-off is not that of its ring.</summary>
internal sealed class RingStandOffUnusual : Rule
{
    private const double Differs = 1;

    public override string Name => "ring-stand-off-unusual";
    public override Severity Severity => Severity.Warn;
    public override string Says => "A line with ring joints gives a gasket thickness that is more than 1 mm off the stand-off of the ring; a note where only rings under end blinds differ.";
    public override string Why => "Between two ring-joint flanges the ring leaves the distance that ASME B16.5 prints, and no gasket is there: the figure of a flat gasket makes every joint too short (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var route = fabrication.Route;
        var off = new List<(SourceRow Where, Component Ring, double Stands, double Stated)>();
        foreach (var c in route.Components)
        {
            if (c is not Gasket { Line: { Facing: Facing.RingJoint, Gasket: { } stated } } || FlangeTable.RingStandOff.Of(c.Size, @class: c.Line.Class) is not { } row || Math.Abs(stated - row.In(fabrication.Units)) <= Differs)
                continue;
            var run = route.Runs[c.Run].Run;
            off.Add((c.Source.Has("gasket") ? c.Source : run.Source.Has("gasket") ? run.Source : route.Drawing.Source, c, row.In(fabrication.Units), stated));
        }

        foreach (var same in off.GroupBy(o => o.Where.Path))
        {
            var (where, ring, stands, stated) = same.FirstOrDefault(o => !IsUnderBlind(o.Ring), same.First());
            var more = same.Count() - 1;
            yield return Found(where, where == route.Drawing.Source ? "line" : "gasket", Say(fabrication.Units, $"{stated:small} is counted in the ring joint at {route.Drawing.PlaceOf(ring.Source.Path)}{(more > 0 ? Say($" and in {more} more") : "")}; the ring of NPS {ring.Size} class {ring.Line.Class} stands {stands:small} off."), "Leave `gasket:` out where the joints are ring joints: the table's figure is taken.",
                IsUnderBlind(ring) ? "" : "The line comes out longer or shorter by the difference.", IsUnderBlind(ring) ? Severity.Note : null);
        }

        // Behind the last face nothing is cut by it.
        bool IsUnderBlind(Component ring) => route.Components.Any(c => c is BlindFlange && c.Run == ring.Run && c.Leg == ring.Leg);
    }
}
