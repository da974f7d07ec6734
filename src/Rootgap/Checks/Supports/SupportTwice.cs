using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

/// <summary>Two supports of one kind at one place, or two with one tag.</summary>
internal sealed class SupportTwice : Rule
{
    /// <summary>Two supports of one kind nearer than this, in diameters, are one that is written twice (common practice).</summary>
    private const double Same = 0.5;

    public override string Name => "support-twice";
    public override Severity Severity => Severity.Warn;
    public override string Says => "Two supports of one kind stand at one place of a pipe, or two have one tag.";
    public override string Why => "One of the two is bought and set for nothing, or the second stands somewhere else (the drawing contradicts itself).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var supports = fabrication.Route.Supports;
        for (var i = 0; i < supports.Count; i++)
        {
            var two = supports[i];
            for (var k = 0; k < i; k++)
            {
                var one = supports[k];
                if (two.Drawn.Tag.Length > 0 && two.Drawn.Tag.Equals(one.Drawn.Tag, StringComparison.OrdinalIgnoreCase))
                    yield return Found(two.Source, "tag", $"{two.Tag} is the tag of two supports: this {two.Name}, and the {one.Name} at {fabrication.Route.Drawing.PlaceOf(one.Source.Path)}.", "Give each its own tag.");
                else if (two.Pipe == one.Pipe && two.Drawn.Kind == one.Drawn.Kind && two.At.To(one.At) < Math.Max(two.Outside * Same, (two.Drawn.Length ?? 0) / 2))
                    yield return Found(two.Source, "by", Say(fabrication.Units, $"{two.Tag} and {one.Tag} are {Drawings.Words.A(two.Name)} each, {two.At.To(one.At):len} from one another."), "Take one of the two out, or mend the distance.");
            }
        }
    }
}
