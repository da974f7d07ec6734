using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.Checks;

/// <summary>A spool higher than the shop's envelope, however it is laid.</summary>
internal sealed class SpoolTooHigh : Rule
{
    public override string Name => "spool-over-height";
    public override Severity Severity => Severity.Warn;
    public override string Says => "The shortest side of a spool's box is more than the shop's envelope has, however the spool is laid: a note where it goes in leaned over about its longest side, or is of small bore throughout, which is mostly run at site; what is screwed together throughout is left out.";
    public override string Why => "It cannot be carried or brought in as one piece (the limit is the shop's rule; default a lorry's bed, common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var spool in fabrication.Spools)
        {
            if (spool.IsScrewedOnly || SpoolFit.WhereTooLarge(fabrication.Route, spool) is not { } fit || fit.Over(2) <= Tolerance.Closing)
                continue;
            yield return Found(fit.Row(fabrication.Route, spool, 2), "by", Say(fabrication.Units, $"Spool {spool.Name} is {fit.Sides[2]:len0} high, the shop's limit is {fit.Limits[2]:len0}: {fit.Over(2):len0} too high.{(fit.Leans is { } lean ? Say($" Leaned over by {Angles.ToDegrees(lean):0} degrees it goes in.") : "")}"), "Part it with a field weld in this leg: the spool stands out in three directions.",
                "It is found out when the lorry stands in the yard.",
                fit.Leans is null && !spool.IsSmallBore ? null : Severity.Note);
        }
    }
}
