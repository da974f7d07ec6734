using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Routes;
using Rootgap.Standards;

namespace Rootgap.Checks;

/// <summary>A stated mass that no part of its size has.</summary>
internal sealed class MassUnusual : Rule
{
    /// <summary>Steel, kg a cubic millimetre.</summary>
    private const double Steel = 7.85e-6;

    /// <summary>A body is about twice its pipe's outside across, or as its flange where that is more.</summary>
    private const double BodyAcross = 2;

    private const double Least = 0.1;

    /// <summary>With bonnet, gear and drive.</summary>
    private const double Most = 5;

    public override string Name => "mass-unusual";
    public override Severity Severity => Severity.Warn;
    public override string Says => "A stated mass of a valve, a lateral or an in-line item is under a tenth or over five times that of a solid steel round of its length and twice its pipe's outside, or its flange's where that is more.";
    public override string Why => "A valve is a hollow casting with a bonnet: its mass is mostly a third of the solid to twice it (common practice). A decimal point that slipped goes into every lift.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var c in fabrication.Route.Components)
        {
            if (c is not (Valve or InLineItem or Tee) || c.Mass is not { Origin: Origin.Drawn } stated || c.Path <= Tolerance.Noise)
                continue;
            var across = c is Tee ? c.Outside : Math.Max(c.Ports.Max(p => p.Outside), c.Outside * BodyAcross);
            var solid = Math.PI / 4 * across * across * c.Path * Steel;
            if (stated.Kg >= solid * Least && stated.Kg <= solid * Most)
                continue;
            yield return Found(c.Source, "mass", Say(fabrication.Units, $"{stated.Kg:kg1} for this {c.Name} NPS {c.Size}: a solid steel round of its size, {across:len0} across and {c.Path:len0} long, weighs {solid:kg1}."),
                "See the maker's sheet: look whether the point or the unit slipped.", "Spools are slung for a mass that they have not.");
        }
    }
}
