using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Standards;

namespace Rootgap.Checks;

/// <summary>Two anchors and straight pipe between them, in a line that grows or shrinks.</summary>
internal sealed class AnchorsInOneLine : Rule
{
    /// <summary>Where the fitter works, C.</summary>
    private const double Cold = 20;

    /// <summary>So many degrees off that, held fast, press steel with some 140 MPa, half its yield point and more (modulus 200 GPa x 11.7e-6 x 60: from memory).</summary>
    private const double Degrees = 60;

    private const double Straight = 0.996;

    public override string Name => "anchors-in-one-line";
    public override Severity Severity => Severity.Warn;
    public override string Says => "Two neighbouring anchors stand in one straight pipe without a bellows between them, and the line is designed for 60 C more or less than it is built at.";
    public override string Why => "Pipe that cannot grow pushes its anchors with the full force of its metal (common practice: one anchor a straight stretch, or a loop or an expansion joint between two). Mostly one of them is meant as a guide. The engineer decides.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var route = fabrication.Route;
        if (ServiceFigures.Celsius(route.Drawing.Service.DesignTemperature) is not { } celsius || Math.Abs(celsius - Cold) < Degrees)
            yield break;
        var anchors = route.Supports.Where(s => s.Drawn.Kind == SupportKind.Anchor).GroupBy(s => s.Run);
        foreach (var ofRun in anchors)
        {
            var run = route.Runs[ofRun.Key];
            foreach (var (first, second) in ofRun.OrderBy(s => s.Leg).Zip(ofRun.OrderBy(s => s.Leg).Skip(1)))
            {
                var between = Enumerable.Range(first.Leg + 1, second.Leg - first.Leg).ToList();
                if (between.Exists(l => Math.Abs(run.Directions[l].Dot(first.Along)) < Straight || run.Run.Legs[l].To is InLineItemPoint { What: var what } && IsSoft(what)))
                    continue;
                var apart = first.At.To(second.At);
                var grows = apart * Metals.ExpansionOf(route.Drawing.Line.Material).PerDegree * Math.Abs(celsius - Cold);
                yield return Found(second.Source, "kind", Say(fabrication.Units, $"Between anchors {first.Tag} and {second.Tag} {apart:len0} of straight pipe would {(celsius > Cold ? "grow" : "shrink")} by {grows:len} at {celsius:celsius}, and cannot."), "Ask the engineer whether one of them is a guide.", "The anchors tear off, or the pipe buckles.");
            }
        }
    }

    private static bool IsSoft(string what) => what.Contains("expansion", StringComparison.OrdinalIgnoreCase) || what.Contains("bellows", StringComparison.OrdinalIgnoreCase) || what.Contains("hose", StringComparison.OrdinalIgnoreCase);
}
