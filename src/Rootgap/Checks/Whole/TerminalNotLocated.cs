using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

internal sealed class TerminalNotLocated : Rule
{
    public override string Name => "terminal-not-located";
    public override Severity Severity => Severity.Note;
    public override string Says => "A run ends at a flange, at an existing pipe or at an open end whose place the drawing does not give.";
    public override string Why => "Without the coordinates of its ends a route cannot be proved to close (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        Leg? first = null;
        var count = 0;
        foreach (var run in fabrication.Route.Drawing.Runs)
        {
            if (run.Legs is not [.., { To: FlangePoint { IsBlinded: false } or WeldPoint or OpenPoint, At: null } last])
                continue;
            first ??= last;
            count++;
        }

        // One note a drawing: most drawings leave some end open, and a note a run would drown the rest.
        if (first is not null)
        {
            yield return Found(first.Source, "to",
                FormattableString.Invariant($"The place of {(count == 1 ? "this end" : $"this end and of {count - 1} more")} is not given, so the dimensions cannot be proved to close."),
                "Add `at: {east: ..., north: ..., up: ...}` from the drawing.",
                "One wrong dimension is found when the last spool does not fit.");
        }
    }
}
