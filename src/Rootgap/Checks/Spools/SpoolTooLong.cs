using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.Checks;

/// <summary>A spool longer than the shop's envelope, however it is laid.</summary>
internal sealed class SpoolTooLong : Rule
{
    public override string Name => "spool-over-length";
    public override Severity Severity => Severity.Warn;
    public override string Says => "The longest side of a spool's box is more than the shop's envelope has, however the spool is laid; what is screwed together throughout is left out.";
    public override string Why => "It cannot be carried or brought in as one piece (the limit is the shop's rule; default a lorry's bed, common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var spool in fabrication.Spools)
        {
            if (spool.IsScrewedOnly || SpoolFit.WhereTooLarge(fabrication.Route, spool) is not { } fit || fit.Over(0) <= Tolerance.Closing)
                continue;
            yield return Found(fit.Row(fabrication.Route, spool, 0), "by", Say(fabrication.Units, $"Spool {spool.Name} is {fit.Sides[0]:len0} long, the shop's limit is {fit.Limits[0]:len0}: {fit.Over(0):len0} too long."), "Part it with a field weld in this leg.",
                "It is found out when the lorry stands in the yard.");
        }
    }
}
