using System.Globalization;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.Checks;

/// <summary>The dimension does not hold what stands at its two ends.</summary>
internal sealed class LegTooShort : Rule
{
    public override string Name => "leg-too-short-for-fittings";
    public override Severity Severity => Severity.Stop;
    public override bool CanBeAccepted => false;
    public override string Says => "The take-offs at the two ends of a leg and the root gaps need more than the dimension gives.";
    public override string Why => "The fittings overlap: nothing can be cut that fits (common practice; the sum of the cut length is below zero).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var route = fabrication.Route;
        // No elbow turns so far, and its take-off runs away: that is said already.
        var turnedBack = route.Findings.Where(f => f is { Rule: "turns-back-on-itself" or "turn-over-90", Severity: Severity.Stop }).Select(f => f.At).ToHashSet();
        foreach (var cut in fabrication.Cuts)
        {
            var net = cut.Length - cut.Extra - cut.Allowance;
            if (net >= -Tolerance.Noise)
                continue;
            var pipe = cut.Pipe;
            if (turnedBack.Contains(route.RowOf(pipe.Run, pipe.FirstLeg - 1).Path) || turnedBack.Contains(route.RowOf(pipe.Run, pipe.LastLeg).Path))
                continue;
            var leg = route.Runs[pipe.Run].Run.Legs[pipe.LastLeg];
            var drawn = Enumerable.Range(pipe.FirstLeg, pipe.LastLeg - pipe.FirstLeg + 1).Sum(i => route.Runs[pipe.Run].Distances[i]);
            var gap = route.Drawing.Shop.RootGap;
            var fittings = pipe.AtStart.Distance + pipe.AtEnd.Distance;
            // Two butt ends can stand on each other with one weld; anything else needs pipe between.
            var needed = pipe.AtStart.IsButt && pipe.AtEnd.IsButt && drawn < fittings + gap ? fittings + gap : drawn - net;
            var what = needed < drawn - net ? "for the two fittings and their weld" : "for what stands at its two ends and the root gaps";
            yield return Found(leg.Source, "by",
                Say(fabrication.Units, $"{needed:len} needed {what}, {drawn:len} drawn: {needed - drawn:len} short."),
                "Ask for the right dimension; with `by: makeup` the fittings stand directly on each other.",
                "The pieces are cut and tacked before anyone sees that they overlap.");
        }
    }
}
