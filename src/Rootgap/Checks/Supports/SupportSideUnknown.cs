using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

/// <summary>A welded support of which nobody says on which side of its pipe it stands.</summary>
internal sealed class SupportSideUnknown : Rule
{
    public override string Name => "support-side-unknown";
    public override Severity Severity => Severity.Warn;
    public override string Says => "A trunnion or an anchor is welded on an upright pipe: on which side it stands is not said, a note; or `side` points along the pipe, a warning.";
    public override string Why => "The shop welds it where it thinks best, and at site the steel is on the other side (common practice). Ears that stand in pairs need no side.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var support in fabrication.Route.Supports)
        {
            if (support.Side is null && (support.Drawn.Side is not null || support.Drawn is { IsWelded: true, Kind: not Drawings.SupportKind.Lug }))
                yield return Found(support.Source, support.Drawn.Side is null ? "kind" : "side", $"On which side of its pipe {support.Tag}, {Drawings.Words.A(support.Name)}, stands is not known.", $"Add `side:` {(Math.Abs(support.Along.Unit.Z) > 0.7 ? "north, south, east or west" : "square to the pipe")}.",
                    severity: support.Drawn.Side is null ? Severity.Note : Severity.Warn);
        }
    }
}
