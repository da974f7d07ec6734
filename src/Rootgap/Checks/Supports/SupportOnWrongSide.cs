using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

/// <summary>A support that carries and stands on the side where it cannot.</summary>
internal sealed class SupportOnWrongSide : Rule
{
    /// <summary>Share of up or down in a direction from which it is that side.</summary>
    private const double Mostly = 0.7;

    public override string Name => "support-on-wrong-side";
    public override Severity Severity => Severity.Warn;
    public override string Says => "A shoe is said to stand above its pipe, or a hanger to hang below it.";
    public override string Why => "A shoe bears from below and a hanger holds from above (common practice): the side or the kind is wrong.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var support in fabrication.Route.Supports)
        {
            if (support.Side is { } side && ((support.Drawn.Kind == SupportKind.Shoe && side.Z > Mostly) || (support.Drawn.Kind == SupportKind.Hanger && side.Z < -Mostly)))
                yield return Found(support.Source, "side", $"{support.Tag} is {Words.A(support.Name)}, and is said to stand {(side.Z > 0 ? "above" : "below")} its pipe.", "Mend the side or the kind.");
        }
    }
}
