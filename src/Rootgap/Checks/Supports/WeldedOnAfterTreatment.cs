using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>A support or a pad that is welded at site on pipe whose spools are heat-treated in the shop.</summary>
internal sealed class WeldedOnAfterTreatment : Rule
{
    public override string Name => "welded-on-after-treatment";
    public override Severity Severity => Severity.Warn;
    public override string Says => "The service asks for heat treatment after welding, and a support or a pad is welded on at site.";
    public override string Why => "A weld on treated pipe is a weld to be treated (ASME B31.3 331.1 speaks of attachments too; from memory), and at site nobody has the furnace: it is welded on in the shop, before the treatment, or clamped (common practice). The engineer decides.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        if (!fabrication.Route.Drawing.Service.IsHeatTreated)
            yield break;
        foreach (var weld in fabrication.Route.Attachments)
        {
            if (weld.Place != WeldPlace.Shop)
                yield return Found(weld.Source, weld.Source.Has("end") ? "end" : "to", $"{weld.Id} is welded on at site, and the line's welds are to be heat-treated.", "Have it welded on in the shop, before the treatment, or clamped; else ask how it is treated at site.", "The pipe is left hard beside that weld.");
        }
    }
}
