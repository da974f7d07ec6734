using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

internal sealed class DrawingTwice : Rule
{
    public override string Name => "drawing-twice";
    public override Severity Severity => Severity.Stop;
    public override bool CanBeAccepted => false;
    public override string Says => "Two files of a job are the same drawing in the same revision.";
    public override string Why => "Nobody in the shop can tell which of the two a piece was cut from: a number and a revision name one drawing (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var drawing = fabrication.Route.Drawing;
        if (drawing.AlsoIn.Count > 0)
        {
            yield return Found(drawing.Source, "drawing", $"{drawing.Number}{(drawing.Revision.Length > 0 ? $" revision {drawing.Revision}" : "")} is also in {string.Join(", ", drawing.AlsoIn)}.",
                "Give one of them its own number or revision, or take the file out that is not in force.", "A piece is cut by one file and fitted by the other.");
        }
    }
}
