using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

/// <summary>A row of <c>lift</c> that names no piece of a spool.</summary>
internal sealed class LiftPieceUnknown : Rule
{
    public override string Name => "lift-piece-unknown";
    public override Severity Severity => Severity.Stop;
    public override bool CanBeAccepted => false;
    public override string Says => "A row of `lift` names a piece that no spool of the drawing has.";
    public override string Why => "The places that somebody reckoned are not the ones on the lifting sheet: the program's own stand there, or the spool hangs from fewer slings than were meant.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var pieces = fabrication.Spools.SelectMany(s => s.Cuts).Select(c => c.Piece).ToList();
        return from row in fabrication.Route.Drawing.Lift
               where !pieces.Contains(row.Piece, StringComparer.OrdinalIgnoreCase)
               select Found(row.Source, "piece", $"No spool has a piece {row.Piece}: this lifting point is on no lifting sheet.",
                   pieces.Count == 0 ? "Take the row out: no spool has pipe." : $"Write one of the pieces: {string.Join(", ", pieces.Take(Most))}{(pieces.Count > Most ? ", ..." : "")}; or take the row out.");
    }

    private const int Most = 20;
}
