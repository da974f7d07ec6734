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
        if (use.Ware is not (Ware.Pipe or Ware.Elbow or Ware.Tee or Ware.Reducer or Ware.Cap) || item.Schedule.Length == 0)
            return null;
        return Walls.Step(item.Schedule, use.Line.Schedule, use.Size, route.Drawing.Units) is > 0 and var step
            ? FormattableString.Invariant($"schedule {item.Schedule} listed, {use.Line.Schedule} drawn, walls {step:0.##} apart")
            : null;
    }
}
