using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

/// <summary>One support of a level line that is lower or higher than all the others on it, or one higher than such a support is.</summary>
internal sealed class SupportHeightOdd : Rule
{
    /// <summary>So many are needed to say what the others have.</summary>
    private const int Fewest = 3;

    /// <summary>Lower than this it is a plate or a slip of the point, mm (from memory).</summary>
    private const double Least = 20;

    /// <summary>Higher than this it is no support but a post, or a digit slipped, mm (from memory).</summary>
    private static double? Most(SupportKind kind) => kind switch
    {
        SupportKind.Shoe or SupportKind.Guide or SupportKind.Anchor => 600,
        SupportKind.Trunnion => 3000,
        SupportKind.Hanger => 6000,
        _ => null,
    };

    public override string Name => "support-height-odd";
    public override Severity Severity => Severity.Warn;
    public override string Says => "Of three or more shoes, guides and anchors under pipe of one size and level one has another height than all the others; or a shoe, guide or anchor is under 20 or over 600, a trunnion over 3000, a hanger over 6000 mm high.";
    public override string Why => "A level line lies on steel of one level (common practice): a support of another height hangs in the air or lifts the pipe. What is so high is a post or a frame with a drawing of its own (from memory).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var support in fabrication.Route.Supports)
        {
            if (support.Drawn is { Kind: SupportKind.Shoe or SupportKind.Guide or SupportKind.Anchor, Height: > 0 and < Least })
                yield return Found(support.Source, "height", Say(fabrication.Units, $"{support.Tag}, {Words.A(support.Name)}, is {support.Drawn.Height.Value:len} high: less than {Least:len} is unusual."), "Look whether the point slipped; if it is meant, accept this with the support's drawing.");
            if (support.Drawn.Height is { } height && height > Most(support.Drawn.Kind))
                yield return Found(support.Source, "height", Say(fabrication.Units, $"{support.Tag}, {Words.A(support.Name)}, is {height:len} high: more than {Most(support.Drawn.Kind)!.Value:len} is unusual."), "Look whether a digit slipped; if it is meant, accept this with the support's drawing.");
        }

        foreach (var level in fabrication.Route.Supports.Where(s => s.Drawn is { Kind: SupportKind.Shoe or SupportKind.Guide or SupportKind.Anchor, Height: not null } && Math.Abs(s.Along.Z) < 1e-6 && s.Drawn.Side is null)
            .GroupBy(s => (s.Size, Level: Math.Round(s.At.Z))).Where(g => g.Count() >= Fewest))
        {
            var heights = level.GroupBy(s => s.Drawn.Height!.Value).OrderByDescending(g => g.Count()).ToList();
            if (heights is [var usual, var odd] && odd.Count() == 1 && odd.Single() is var support)
                yield return Found(support.Source, "height", Say(fabrication.Units, $"{support.Tag} is {odd.Key:len} high, and the other {usual.Count()} on this level are {usual.Key:len}."), "See the support's drawing, or the steel's level there.", "The pipe does not lie on it, or is lifted by it.");
        }
    }
}
