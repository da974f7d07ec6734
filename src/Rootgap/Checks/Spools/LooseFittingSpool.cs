using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

/// <summary>A fitting that is a spool by itself.</summary>
internal sealed class LooseFittingSpool : Rule
{
    public override string Name => "loose-fitting-as-spool";
    public override Severity Severity => Severity.Note;
    public override string Says => "A spool is a single fitting: all its welds are made at site.";
    public override string Why => "It is easily lost, and both its welds are site welds; one of them could be made in the shop (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var spool in fabrication.Spools)
        {
            if (spool is not { Cuts.Count: 0, Components: [var only] } || !spool.Ends.Any(e => e.IsWeld))
                continue;
            yield return Found(only.Source, "to", $"The {only.Name} NPS {only.Size} here is a spool by itself: it goes to site loose.", "Make one of its welds a shop weld, or bag and tag it.");
        }
    }
}
