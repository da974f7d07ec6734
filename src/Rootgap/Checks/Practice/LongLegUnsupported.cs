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

    public override string Name => "long-leg-unsupported";
    public override Severity Severity => Severity.Note;
    public override string Says => "A straight level stretch is longer than the usual distance between supports for its size (water, or gas by the service's fluid).";
    public override string Why => "Few isometrics have all supports: see that the support drawing has one here (ASME B31.1 Table 121.5, MSS SP-69 Table 3; the engineer decides).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var route = fabrication.Route;
        var fluid = route.Drawing.Service.Fluid;
        var isGas = fluid.Length > 0 && Array.Exists(Gases, g => fluid.Contains(g, StringComparison.OrdinalIgnoreCase));
        for (var r = 0; r < route.Runs.Count; r++)
        {
            var run = route.Runs[r];
            for (var l = 0; l < run.Distances.Count; l++)
            {
                // A stretch goes on through what does not cut the pipe; a support that carries ends it.
                var (first, length) = (l, run.Distances[l]);
                while (l + 1 < run.Distances.Count && run.Run.Legs[l].To is { IsPassedThrough: true } through && !(through is SupportPoint s && s.Carries(run.Directions[l])))
                    length += run.Distances[++l];
                if (Math.Abs(run.Directions[first].Z) > Level || SpanOf(run.Sizes[first], isGas) is not { } span || length <= span)
                    continue;
                yield return Found(run.Run.Legs[first].Source, "by", Say(fabrication.Units, $"{length:len0} of level NPS {run.Sizes[first]} without a support; between supports {span:len0} is usual with {(isGas ? "gas" : "water")}."), "See where the support drawing has its supports, and write them as `to: support`.");
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
