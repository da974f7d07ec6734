using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Standards;

namespace Rootgap.Checks;

/// <summary>A level leg longer than the usual distance between two supports.</summary>
internal sealed class LongLegUnsupported : Rule
{
    private static readonly double Level = Math.Sin(10 * Math.PI / 180);
    private static readonly string[] Gases = ["steam", "air", "gas", "oxygen", "nitrogen", "vapour", "vapor", "carbon dioxide", "hydrogen"];

    /// <summary>Cosine of ten degrees.</summary>
    private const double Straight = 0.985;

    /// <summary>So many spans in a drawing that has supports are no matter of where they stand: one was left out.</summary>
    private const double FarOver = 2.5;

    public override string Name => "long-leg-unsupported";
    public override Severity Severity => Severity.Note;
    public override string Says => "A level stretch, straight through tees, joints and valves and, where the drawing has supports, round level corners, is longer than the usual distance between supports for its size (water, or gas by the service's fluid); a warning where it is over two and a half times as long and the drawing has supports elsewhere.";
    public override string Why => "Few isometrics have all supports: see that the support drawing has one here (ASME B31.1 Table 121.5, MSS SP-69 Table 3; the engineer decides).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var route = fabrication.Route;
        var hasSupports = route.Supports.Count > 0;
        var fluid = route.Drawing.Service.Fluid;
        var isGas = fluid.Length > 0 && !fluid.Contains("condensate", StringComparison.OrdinalIgnoreCase) && !fluid.Contains("liquid", StringComparison.OrdinalIgnoreCase) && Array.Exists(Gases, g => fluid.Contains(g, StringComparison.OrdinalIgnoreCase));
        for (var r = 0; r < route.Runs.Count; r++)
        {
            var run = route.Runs[r];
            bool IsLevel(int leg) => Math.Abs(run.Directions[leg].Z) <= Level;
            for (var l = 0; l < run.Distances.Count; l++)
            {
                // A stretch goes on through whatever stands in it; a support that carries ends it. Round a level corner it goes on where the drawing has supports at all.
                var (first, length) = (l, run.Distances[l]);
                while (l + 1 < run.Distances.Count && IsLevel(l) && IsLevel(l + 1) && !(run.Run.Legs[l].To is SupportPoint s && s.Carries(run.Directions[l])) && (hasSupports || run.Directions[l + 1].Dot(run.Directions[l]) > Straight))
                    length += run.Distances[++l];
                if (!IsLevel(first) || SpanOf(run.Sizes[first], isGas) is not { } span || length <= span)
                    continue;
                yield return Found(run.Run.Legs[first].Source, "by", Say(fabrication.Units, $"{length:len0} of level NPS {run.Sizes[first]} without a support; between supports {span:len0} is usual with {(isGas ? "gas" : "water")}."), "See where the support drawing has its supports, and write them as `to: support`.",
                    severity: hasSupports && length > FarOver * span ? Severity.Warn : null);
            }
        }
    }

    /// <summary>The table's span for the size, or for the next smaller one that it has: never too long.</summary>
    private static double? SpanOf(NominalSize size, bool isGas)
    {
        for (var eighths = size.Eighths; eighths > 0; eighths--)
        {
            if ((isGas ? Supports.SpanOfGas : Supports.SpanOfWater).Of(NominalSize.OfEighths(eighths)) is { Mm: { } mm })
                return mm;
        }

        return null;
    }
}
