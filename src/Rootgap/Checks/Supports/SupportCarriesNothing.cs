using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>A support that can carry nothing where it stands.</summary>
internal sealed class SupportCarriesNothing : Rule
{
    public override string Name => "support-carries-nothing";
    public override Severity Severity => Severity.Warn;
    public override string Says => "A shoe or a hanger stands on a pipe that goes up or down; a guide there is a note, and so is a clamp, which holds by friction alone, where nothing else carries the same riser.";
    public override string Why => "An upright pipe slides through it: it hangs on its next fitting or on a machine's flange. Upright pipe rests on lugs, trunnions or a riser clamp under shear lugs (common practice; MSS SP-58 types for risers).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var support in fabrication.Route.Supports)
        {
            if (!SupportPoint.IsSteep(support.Along))
                continue;
            if (support.Drawn.Kind is SupportKind.Shoe or SupportKind.Hanger)
                yield return Found(support.Source, "kind", $"{support.Tag}, {Words.A(support.Name)}, stands on a pipe that goes {(support.Along.Z > 0 ? "up" : "down")}: it carries nothing there.", "Ask what is meant: lugs, trunnions or a clamp on shear lugs carry an upright pipe.");
            else if (support.Drawn.Kind is SupportKind.Guide or SupportKind.Clamp && !fabrication.Route.Supports.Any(o => o.Carries && o.Drawn.Kind is not (SupportKind.Guide or SupportKind.Clamp) && IsOnRiser(o, support)))
                yield return Found(support.Source, "kind", $"{support.Tag}, {Words.A(support.Name)} on a pipe that goes {(support.Along.Z > 0 ? "up" : "down")}, {(support.Drawn.Kind == SupportKind.Guide ? "carries no weight" : "carries by friction alone unless lugs stand on it")}.", "See what carries this pipe.", severity: Severity.Note);
        }
    }

    private static bool IsOnRiser(Support other, Support support) => other.Run == support.Run && (other.At - support.At).SquareTo(support.Along).Length < support.Outside;
}
