using System.Globalization;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.Checks;

/// <summary>A piece longer than any stock length.</summary>
internal sealed class PieceLongerThanStock : Rule
{
    public override string Name => "piece-longer-than-stock";
    public override Severity Severity => Severity.Stop;
    public override bool CanBeAccepted => false;
    public override string Says => "A piece of pipe is longer than the longest stock length.";
    public override string Why => "It cannot be cut from one length: the drawing needs a weld that it does not show.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var route = fabrication.Route;
        var longest = route.Drawing.Shop.Stock.Max();
        foreach (var cut in fabrication.Cuts)
        {
            if (cut.Length <= longest + Tolerance.Noise)
                continue;
            var run = route.Runs[cut.Pipe.Run];
            // The leg in which the first stock length runs out is where the weld goes.
            var reach = longest + cut.Pipe.AtStart.Distance;
            var leg = cut.Pipe.FirstLeg;
            while (leg < cut.Pipe.LastLeg && reach > run.Distances[leg])
                reach -= run.Distances[leg++];
            var row = run.Run.Legs[leg].Source;
            yield return Found(row, "by",
                Say(fabrication.Units, $"Piece {cut.Piece} is {cut.Length:len} long and the longest stock is {longest:len}: {cut.Length - longest:len} too long."),
                Say(fabrication.Units, $"Split this leg with a `to: weld` row, at most {Math.Max(0, Math.Floor(reach)):len0} from the leg's start."),
                "The weld is put where the bar happens to end, and nobody has agreed to it.");
        }
    }
}
