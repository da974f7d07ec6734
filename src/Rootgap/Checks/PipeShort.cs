using System.Globalization;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.Checks;

/// <summary>A pipe too short to clamp and weld.</summary>
internal sealed class PipeShort : Rule
{
    public override string Name => "pipe-too-short";
    public override Severity Severity => Severity.Warn;
    public override string Says => "A piece of pipe is shorter than the shop's shortest.";
    public override string Why => "Two welds close together leave no room for clamps and examination, and their heat runs into each other (common practice; the limit is the shop's rule).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var shortest = fabrication.Route.Drawing.Shop.ShortestPipe;
        foreach (var cut in fabrication.Cuts)
        {
            var net = cut.Length - cut.Extra;
            if (!cut.IsCut || cut.Length - cut.Extra - cut.Allowance < -Tolerance.Noise || net >= shortest - Tolerance.Noise)
                continue;
            // A ring between two fittings is told by a rule of its own.
            if (MakeupRingHidden.IsRing(cut, fabrication.Route.Drawing.Shop.RootGap, out _))
                continue;
            var leg = fabrication.Route.Runs[cut.Pipe.Run].Run.Legs[cut.Pipe.LastLeg];
            yield return Found(leg.Source, "by",
                Say(fabrication.Units, $"Piece {cut.Piece} is {net:len} long; the shop's shortest pipe is {shortest:len}."),
                "Ask for a longer dimension, or make the fittings up directly with `by: makeup`.",
                "The piece cannot be clamped, and its two welds run into each other.");
        }
    }
}
