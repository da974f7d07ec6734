using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>The weld to what stands outside the drawing, marked for the shop.</summary>
internal sealed class EndWeldInShop : Rule
{
    public override string Name => "end-weld-in-shop";
    public override Severity Severity => Severity.Warn;
    public override string Says => "The weld to an existing pipe, or to the pipe of the next drawing, is not marked as a field weld.";
    public override string Why => "What is on the other side is not in the shop: the weld is made at site, and counts for the site's crew, welders and tests (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var joint in fabrication.Route.Joints)
        {
            if (joint is not { MeetsExistingPipe: true, Place: WeldPlace.Shop })
                continue;
            var row = fabrication.Route.EndRow(joint);
            var key = row.Path == joint.Source.Path ? "end" : "begin";
            yield return Found(row, "to", $"{joint.Called} joins {(row.Text("continues") is { } next ? $"the pipe of drawing {next}" : "a pipe that stands already")}, and is a shop weld.",
                $"Write `{key}: field`{(key == "begin" ? " on the first leg" : "")}, or `final-fit`.", "Nobody at site plans it.");
        }
    }
}
