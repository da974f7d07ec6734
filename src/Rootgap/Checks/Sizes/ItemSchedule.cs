using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Routes;

namespace Rootgap.Checks;

internal sealed class ItemSchedule : ItemRule
{
    public override string Name => "item-schedule-mismatch";
    public override Severity Severity => Severity.Stop;
    public override string Says => "Pipe or a fitting is listed with another schedule than the drawing gives the line.";
    public override string Why => "Another wall is another strength and a step at every weld (ASME B31.3 328.4.3 for the step).";
    protected override string Key => "schedule";

    private protected override string? Against(MaterialItem item, in ItemUse use, Route route)
    {
        if (!use.Part.IsBySchedule || item.Schedule.Length == 0)
            return null;
        return Walls.Step(item.Schedule, use.Line.Schedule, use.Size, route.Drawing.Units) is > 0 and var step && (use.IsStated || !AnotherFits(item, use, route))
            ? Say(route.Drawing.Units, $"schedule {item.Schedule} listed, {use.Line.Schedule} drawn, walls {step:small} apart")
            : null;
    }

    private protected override (string NewText, string Says)? ChangeOf(MaterialItem item, in ItemUse use) =>
        use.Line.Schedule.Wall is null ? (use.Line.Schedule.Name, Say($"item {item.Item} is now schedule {use.Line.Schedule}")) : null;

    /// <summary>Where the row was only guessed: another one of the same part has the wall under another name.</summary>
    private static bool AnotherFits(MaterialItem item, in ItemUse use, Route route)
    {
        foreach (var other in route.Drawing.Materials)
        {
            if (!ReferenceEquals(other, item) && other.Words == item.Words && other.Size == item.Size && other.Size2 == item.Size2
                && Walls.Step(other.Schedule, use.Line.Schedule, use.Size, route.Drawing.Units) is 0)
            {
                return true;
            }
        }

        return false;
    }
}
