using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Routes;
using Rootgap.Standards;

namespace Rootgap.Checks;

/// <summary>A high point without a vent.</summary>
internal sealed class HighPointWithoutVent : Rule
{
    public override string Name => "high-point-without-vent";
    public override Severity Severity => Severity.Note;
    public override string Says => "A run goes up and down again, and nothing branches off at the high stretch; small bore that carries a gas is left out.";
    public override string Why => "Air stays there when the line is filled for the pressure test (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var pocket in Pocket.AllOf(fabrication.Route, 1))
        {
            // A take-off from the top of a gas header is of small bore, and is blown through.
            if (pocket.HasBranch || (fabrication.Route.Runs[pocket.Run].Sizes.All(s => s.IsSmallBore) && LineData.IsGas(fabrication.Route.Drawing.Service.Fluid)))
                continue;
            yield return Found(fabrication.Route.RowOf(pocket.Run, pocket.FirstLeg), "to", Say(fabrication.Units, $"The line is at its highest here, up {fabrication.Route.Runs[pocket.Run].Points[pocket.FirstLeg + 1].Z:len0}, and has no vent."), "Ask for a vent: an outlet with a valve.");
        }
    }
}
