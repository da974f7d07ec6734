using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>A spool heavier than the shop can lift.</summary>
internal sealed class SpoolTooHeavy : Rule
{
    public override string Name => "spool-over-mass";
    public override Severity Severity => Severity.Warn;
    public override string Says => "A spool weighs more than the shop's envelope allows.";
    public override string Why => "Crane, fork and slings have limits (the shop's rule; the default of 3000 kg is common practice). Lifting is planned by those who are qualified for it.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var route = fabrication.Route;
        var limit = route.Drawing.Shop.EnvelopeMass;
        foreach (var spool in fabrication.Spools)
        {
            if (spool.Mass <= limit)
                continue;
            var cut = spool.Cuts.MaxBy(c => c.Mass);
            var row = cut is not null ? route.RowOf(cut.Pipe.Run, cut.Pipe.FirstLeg) : spool.Components[0].Source;
            yield return Found(row, "by", Say(fabrication.Units, $"Spool {spool.Name} weighs {spool.Mass:kg}, the shop's limit is {limit:kg}: {spool.Mass - limit:kg} too heavy."), "Part it with a field weld.",
                "It is found out when it hangs.");
        }
    }
}
