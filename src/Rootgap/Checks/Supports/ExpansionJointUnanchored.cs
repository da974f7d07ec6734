using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

/// <summary>A bellows that nothing holds together.</summary>
internal sealed class ExpansionJointUnanchored : Rule
{
    /// <summary>A bellows that holds itself, by its own words.</summary>
    private static readonly string[] Held = ["tied", "tie rod", "tie-rod", "hinged", "gimbal", "balanced", "limit rod", "slip"];

    public override string Name => "expansion-joint-unanchored";
    public override Severity Severity => Severity.Note;
    public override string Says => "An expansion joint stands in the line, neither its words nor the supports drawn say what holds it: no anchor, no tie rods.";
    public override string Why => "Pressure pushes a bellows apart with its full area: without anchors on both sides or tie rods it stretches until it tears (common practice). Mostly the anchor was left out of the drawing. The engineer decides.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        if (fabrication.Route.Supports.Any(s => s.Drawn.Kind == SupportKind.Anchor))
            yield break;
        foreach (var leg in fabrication.Route.Drawing.Runs.SelectMany(r => r.Legs))
        {
            if (leg.To is InLineItemPoint item && Standards.LineData.IsBellows(item.What) && !Held.Any(w => Has(item.What, w)))
                yield return Found(leg.Source, "what", $"Nothing drawn holds this {item.What} against its own pressure: there is no anchor, and its words name no tie rods.", "See the support drawings for its anchors, and write them down; or add the tie rods to `what`.", "It stretches in the test until it tears.");
        }
    }

    private static bool Has(string text, string word) => text.Contains(word, StringComparison.OrdinalIgnoreCase);
}
