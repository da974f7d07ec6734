using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>A spool bolted to two fixed flanges, with nothing in it that can be turned at site.</summary>
internal sealed class SpoolCannotTurn : Rule
{
    public override string Name => "spool-cannot-turn";
    public override Severity Severity => Severity.Note;
    public override string Says => "A spool of shop welds only is bolted at two ends to things outside the drawing, and its flanges are not loose.";
    public override string Why => "Both bolt circles must then match to a hole's play: a nozzle turned by a degree cannot be answered (common practice: a field weld or a lap-joint flange lets the spool turn).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var spool in fabrication.Spools)
        {
            Joint? last = null;
            var count = 0;
            foreach (var end in spool.Ends)
            {
                if (end is { Kind: JointKind.Bolted, Between.Count: 1 })
                    (last, count) = (end, count + 1);
                else if (end.Kind != JointKind.Bolted)
                    count = int.MinValue;
            }

            if (count < 2 || spool.Components.Any(c => c is Flange { Stub: not null }))
                continue;
            yield return Found(last!.Source, "to", $"Spool {spool.Name} is bolted to fixed flanges at {(count == 2 ? "both ends" : "all ends")} and has no field weld: it cannot be turned to the holes.",
                "Make one of its welds field or final-fit, or use a lap-joint flange.");
        }
    }
}
