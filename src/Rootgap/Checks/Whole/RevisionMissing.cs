using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

internal sealed class RevisionMissing : Rule
{
    public override string Name => "revision-missing";
    public override Severity Severity => Severity.Warn;
    public override string Says => "The drawing gives no revision.";
    public override string Why => "A piece cut from an unknown revision may be scrap: nobody can tell whether the drawing in the shop is the newest (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var drawing = fabrication.Route.Drawing;
        if (drawing.Revision.Length == 0)
            yield return Found(drawing.Source, "drawing", $"Drawing {drawing.Number} has no revision.", "Add `revision:` from the title block.", "An old print and a new one look the same in the shop.");
    }
}
