using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

/// <summary>A girth weld covered by a reinforcing pad.</summary>
internal sealed class WeldUnderPad : Rule
{
    public override string Name => "weld-under-pad";
    public override Severity Severity => Severity.Warn;
    public override string Says => "A reinforcing pad (without `pad width` taken as twice as wide as its branch) covers a girth weld of the header.";
    public override string Why => "The weld can no longer be examined, and the pad rocks on its cap (common practice; a pad is usually about two branch diameters wide).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var (branch, row, apart, radius) in WeldBesideBranch.AllOf(fabrication.Route))
        {
            // On the hole itself it is the other rule's matter.
            if (branch is not StubInPoint { HasPad: true } stub)
                continue;
            var reach = radius + (stub.PadWidth ?? radius);
            if (apart >= reach || apart <= radius)
                continue;
            yield return Found(row, "by", Say(fabrication.Units, $"The pad here reaches {reach:len} from the branch's centre, and a girth weld stands {apart:len} from it: the weld lies under the pad."),
                "Move the branch or the weld, or give the pad another shape.");
        }
    }
}
