using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Routes;
using Rootgap.Standards;

namespace Rootgap.Checks;

/// <summary>A stated mass that no part or support of its size has.</summary>
internal sealed class MassUnusual : Rule
{
    /// <summary>Steel, kg a cubic millimetre.</summary>
    private const double Steel = 7.85e-6;

    /// <summary>A body is about twice its pipe's outside across, or as its flange where that is more.</summary>
    private const double BodyAcross = 2;

    private const double Least = 0.1;

    /// <summary>With bonnet, gear and drive: the smallest are all handle, the larger mostly body. A union or a coupling has nothing outside its round.</summary>
    private static double Most(Component c) => c is Union or Coupling ? 1.2 : c.Size.Inches < 2 ? 5 : 3;

    /// <summary>A meter or a strainer is mostly hollow, a bellows all but its rings.</summary>
    private const double LeastOfItem = 0.04, LeastOfBellows = 0.02;

    /// <summary>Of the tube that it at least is.</summary>
    private const double LeastOfTube = 0.7;

    /// <summary>A support of a pipe is heavier than this where it is a frame or a slip of the point: kg, and kg for each mm of the pipe's outside (from memory: shoes run from 2 to 60 kg).</summary>
    private const double MostSupport = 30, MostSupportPerMm = 0.2;

    public override string Name => "mass-unusual";
    public override Severity Severity => Severity.Warn;
    public override string Says => "A stated mass of a valve, a lateral, a union or an in-line item is under a tenth (of an in-line item a twenty-fifth, of an expansion joint a fiftieth, of a lateral under its tube's) or over three times (up to NPS 1-1/2 five times, of a union one and a fifth) that of a solid steel round of its length and twice its pipe's outside, or its flange's where that is more; or a support is heavier than 30 kg and 0.2 kg for each millimetre of its pipe's outside.";
    public override string Why => "A valve is a hollow casting with a bonnet: its mass is mostly a third of the solid to twice it (common practice). A decimal point that slipped goes into every lift.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var c in fabrication.Route.Components)
        {
            if (c is not (InLine or Tee) || c.Mass is not { Origin: Origin.Drawn } stated || c.Path <= Tolerance.Noise)
                continue;
            var across = c is Tee ? c.Outside : Math.Max(c.Ports.Max(p => p.Outside), c.Outside * BodyAcross);
            var solid = Math.PI / 4 * across * across * c.Path * Steel;
            var tube = Pipes.MassPerLength(c.Outside, c.Wall, Pipes.CarbonSteel) * c.Path;
            var least = c switch { Tee => tube * LeastOfTube, InLineItem item => solid * (Standards.LineData.IsBellows(item.What) ? LeastOfBellows : LeastOfItem), _ => solid * Least };
            if (stated.Kg >= least && stated.Kg <= solid * Most(c))
                continue;
            var held = c is Tee && stated.Kg < least ? Say(fabrication.Units, $"its tube alone, {c.Path:len0} long, weighs {tube:kg1}") : Say(fabrication.Units, $"a solid steel round of its size, {across:len0} across and {c.Path:len0} long, weighs {solid:kg1}");
            yield return Found(c.Source, "mass", Say(fabrication.Units, $"{stated.Kg:kg1} for this {c.Name} NPS {c.Size}: {held}."),
                "See the maker's sheet: look whether the point or the unit slipped.", "Spools are slung for a mass that they have not.");
        }

        foreach (var support in fabrication.Route.Supports)
        {
            if (support.Mass is { Origin: Origin.Drawn, Kg: var kg } && kg > MostSupport + (MostSupportPerMm * support.Outside))
                yield return Found(support.Source, "mass", Say(fabrication.Units, $"{kg:kg1} for {support.Tag}, {Drawings.Words.A(support.Name)} on NPS {support.Size}: such supports weigh far less."), "See the support's drawing: look whether the point slipped.", "Spools are slung for a mass that they have not.");
        }
    }
}
