using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

/// <summary>One support of a level line that is lower or higher than all the others on it.</summary>
internal sealed class SupportHeightOdd : Rule
{
    /// <summary>So many are needed to say what the others have.</summary>
    private const int Fewest = 3;

    public override string Name => "support-height-odd";
    public override Severity Severity => Severity.Warn;
    public override string Says => "Of three or more shoes, guides and anchors under pipe of one size and level one has another height than all the others.";
    public override string Why => "A level line lies on steel of one level (common practice): a support of another height hangs in the air or lifts the pipe.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var level in fabrication.Route.Supports.Where(s => s.Drawn is { Kind: SupportKind.Shoe or SupportKind.Guide or SupportKind.Anchor, Height: not null } && Math.Abs(s.Along.Z) < 1e-6 && s.Drawn.Side is null)
            .GroupBy(s => (s.Size, Level: Math.Round(s.At.Z))).Where(g => g.Count() >= Fewest))
        {
            var heights = level.GroupBy(s => s.Drawn.Height!.Value).OrderByDescending(g => g.Count()).ToList();
            if (heights is [var usual, var odd] && odd.Count() == 1 && odd.Single() is var support)
                yield return Found(support.Source, "height", Say(fabrication.Units, $"{support.Tag} is {odd.Key:len} high, and the other {usual.Count()} on this level are {usual.Key:len}."), "See the support's drawing, or the steel's level there.", "The pipe does not lie on it, or is lifted by it.");
        }
    }
}
