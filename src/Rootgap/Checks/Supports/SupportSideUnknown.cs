using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

/// <summary>A welded support of which nobody says on which side of its pipe it stands.</summary>
internal sealed class SupportSideUnknown : Rule
{
    public override string Name => "support-side-unknown";
    public override Severity Severity => Severity.Warn;
    public override string Says => "On which side of an upright pipe a support stands is not said: a warning a note of a hanger; or `side` points along the pipe, a warning.";
    public override string Why => "The shop welds it where it thinks best, and at site the steel is on the other side (common practice). Lugs and clamps go round the pipe or stand in pairs, and need no side.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var support in fabrication.Route.Supports)
        {
            if (support.Side is not null || (support.Drawn.Side is null && support.Drawn.Kind is SupportKind.Lug or SupportKind.Clamp))
                continue;
            yield return Found(support.Source, support.Drawn.Side is null ? "kind" : "side", support.Drawn.Side is null ? $"On which side of its pipe {support.Tag}, {Words.A(support.Name)}, stands is not known." : $"The side of {support.Tag}, {Words.A(support.Name)}, lies along its pipe.",
                $"{(support.Drawn.Side is null ? "Add" : "Mend")} `side:`{(support.Drawn.Side is not null && support.Drawn.Kind is SupportKind.Lug or SupportKind.Clamp ? ", or take it out: it needs none;" : "")} {(Math.Abs(support.Along.Unit.Z) > 0.7 ? "north, south, east or west" : "square to the pipe")}.",
                severity: support.Drawn.Kind is SupportKind.Hanger && support.Drawn.Side is null ? Severity.Note : Severity.Warn);
        }
    }
}
