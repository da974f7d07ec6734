using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>A spool to be heat-treated that holds what heat spoils.</summary>
internal sealed class HeatTreatmentSoftParts : Rule
{
    private static readonly string[] Locally = ["local", "band", "mats", "pads"];

    private static readonly NominalSize Small = NominalSize.OfInches(2);

    public override string Name => "heat-treatment-soft-parts";
    public override Severity Severity => Severity.Warn;
    public override string Says => "The service asks for heat treatment after welding, and a spool holds a welded or screwed valve, an in-line item or a thread; a note where it is that of a drain or a vent, which is mostly screwed in last, or of NPS 2 and less, whose welds are mostly treated one by one with a band, where the service says that they are treated locally, or where it is a butt-weld gate, globe or check valve, which is seated on metal.";
    public override string Why => "Seats and packings char, threads scale and seize: such parts go in after the treatment, or are taken out for it (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        if (!fabrication.Route.Drawing.Service.IsHeatTreated)
            yield break;
        var isLocal = Array.Exists(Locally, w => fabrication.Route.Drawing.Service.HeatTreatment.Contains(w, StringComparison.OrdinalIgnoreCase));
        foreach (var spool in fabrication.Spools)
        {
            foreach (var part in spool.Components)
            {
                if (part is InLine { Ends: not FittingEnds.Flanged } soft and not Coupling)
                    yield return Found(soft.Source, "to", $"This {soft.Name} is part of spool {spool.Name}, whose welds are to be heat-treated.", "Ask whether it is taken apart for the treatment, welded in after it, or flanged.", severity: IsOfDrain(soft.Source) || soft.Size <= Small || isLocal || soft is Valve { Ends: FittingEnds.Butt, Kind: ValveKind.Gate or ValveKind.Globe or ValveKind.Check } ? Severity.Note : null);
            }

            if (spool.Joints.FirstOrDefault(j => j.Kind == JointKind.Threaded) is { } thread)
                yield return Found(thread.Source, "to", $"{thread.Id} is a thread of spool {spool.Name}, whose welds are to be heat-treated.", "Screw it in after the treatment.", severity: IsOfDrain(thread.Source) || thread.Size <= Small ? Severity.Note : null);
        }
    }

    private static bool IsOfDrain(SourceRow row) => row.Text("to") is "drain" or "vent";
}
