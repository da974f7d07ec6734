using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Routes;
using Rootgap.Standards;

namespace Rootgap.Checks;

/// <summary>A stem that stands in another pipe.</summary>
internal sealed class HandWheelWithoutRoom : Rule
{
    public override string Name => "hand-wheel-without-room";
    public override Severity Severity => Severity.Warn;
    public override string Says => "The stem of a valve, as long as is usual for its size, runs into another pipe, fitting or flange of the drawing.";
    public override string Why => "The valve cannot be opened, or not be set in: stems rise by some three sizes and more above the line (common practice; the vendor's drawing has the figure).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var route = fabrication.Route;
        foreach (var c in route.Components)
        {
            if (c is not Valve { Kind: not ValveKind.Check, StemDrawn: not null } valve || valve.Outside <= 0)
                continue;
            // The stem's own line: what it meets beyond the valve and the flanges that hold it.
            var (from, to) = (valve.WorkPoint + (valve.Stem * valve.Outside), valve.WorkPoint + (valve.Stem * valve.StemReach));
            var beside = route.Joints.Where(j => j.Between.Contains(c.Id)).SelectMany(j => j.Between).ToHashSet(StringComparer.Ordinal);
            var met = route.Pipes.Concat<Part>(route.Components).FirstOrDefault(p => !beside.Contains(p.Id) && p.Id != c.Id && p is not Component { LiesInJoint: true } && !Solid.Clear(from, to, p.Bodies));
            if (met is not null)
                yield return Found(c.Source, "stem", $"The stem of this {valve.Name} runs into {met.Word} {met.Id}.", "Turn the stem, or move one of the two; see the vendor's drawing for its height.");
        }
    }
}
