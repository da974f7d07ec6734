using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Routes;
using Rootgap.Standards;

namespace Rootgap.Checks;

/// <summary>An eccentric reducer whose flat side is on the wrong side for what the line does.</summary>
internal sealed class EccentricFlatAgainstService : Rule
{
    private static readonly double Level = Math.Sin(5 * Math.PI / 180);

    public override string Name => "eccentric-flat-against-service";
    public override Severity Severity => Severity.Warn;
    public override string Says => "A level eccentric reducer is flat at the bottom in a pump's suction (a warning), or flat at the top in a line that should drain (steam, condensate, drains).";
    public override string Why => "Flat at the bottom leaves a pocket of gas in front of the pump; flat at the top leaves a pool in a line that drains (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var drawing = fabrication.Route.Drawing;
        for (var r = 0; r < drawing.Runs.Count; r++)
        {
            var run = drawing.Runs[r];
            for (var l = 0; l < run.Legs.Count; l++)
            {
                var leg = run.Legs[l];
                if (leg.To is not ReducerPoint { IsEccentric: true, Flat: { } flat } || Math.Abs(leg.Direction.Z) > Level)
                    continue;
                var isSuction = (Speaks(run.Name, "suction") || Speaks(drawing.Title, "suction")) && !IsOfGas(drawing) && !Widens(fabrication.Route.Runs[r], l);
                var drains = Speaks(drawing.Service.Fluid, "steam") || Speaks(drawing.Service.Fluid, "condensate") || Speaks(drawing.Service.Fluid, "drain") || Speaks(run.Name, "drain") || leg.Slope != 0;
                if (isSuction && flat.Z < -0.7)
                    yield return Found(leg.Source, "flat", "Flat at the bottom in a pump's suction: gas gathers at the top in front of the pump.", "Usually `flat: top`; ask where the suction comes from above or carries slurry.");
                else if (!isSuction && drains && flat.Z > 0.7)
                    yield return Found(leg.Source, "flat", "Flat at the top in a line that should drain: a pool stands in front of the reducer.", "Usually `flat: bottom`; ask if it is meant.", severity: Severity.Note);
            }
        }
    }

    /// <summary>A compressor sucks gas, and what a refrigeration plant calls wet suction drains back to its vessel (common practice).</summary>
    private static bool IsOfGas(Drawing drawing) =>
        LineData.IsGas(drawing.Service.Fluid) || Array.Exists(["compressor", "wet suction", "accumulator"], w => Speaks(drawing.Title, w)) || Array.Exists(["refrigerant", "ammonia", "vapour", "vapor"], w => Speaks(drawing.Service.Fluid, w) && !Speaks(drawing.Title, "pump"));

    /// <summary>Whether the reducer at a leg's end widens along the flow: in front of a pump it narrows.</summary>
    private static bool Widens(RunLine line, int leg) =>
        line.Run.FlowsAlong is { } along && leg + 1 < line.Sizes.Count && (along ? line.Sizes[leg + 1] > line.Sizes[leg] : line.Sizes[leg + 1] < line.Sizes[leg]);

    private static bool Speaks(string text, string word) => text.Contains(word, StringComparison.OrdinalIgnoreCase);
}
