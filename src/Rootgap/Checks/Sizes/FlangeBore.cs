using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Routes;

namespace Rootgap.Checks;

internal sealed class FlangeBore : ItemRule
{
    public override string Name => "flange-bore-schedule";
    public override Severity Severity => Severity.Stop;
    public override string Says => "A flange is bored for another schedule than its pipe has.";
    public override string Why => "A weld-neck flange is ordered to the bore of its pipe (ASME B16.5: the bore is the purchaser's to give); otherwise the weld has a step inside.";
    protected override string Key => "bore";
    protected override string LegKey => "schedule";
    protected override string Remedy => "Order the flange to the pipe's bore, or mend the schedule.";
    protected override string Otherwise => "The flange has to be bored on a lathe, or ordered again.";

    private protected override string? Against(MaterialItem item, in ItemUse use, Route route)
    {
        if (use.Part is not Flange || item.Bore.Length == 0)
            return null;
        return Walls.Step(item.Bore, use.Line.Schedule, use.Size, route.Drawing.Units) is > 0 and var step
            ? Say(route.Drawing.Units, $"bored for schedule {item.Bore}, the pipe is {use.Line.Schedule}: a step of {step:small} inside")
            : null;
    }

    private protected override (string NewText, string Says)? ChangeOf(MaterialItem item, in ItemUse use) =>
        use.Line.Schedule.Wall is null ? (use.Line.Schedule.Name, Say($"item {item.Item} is now bored for schedule {use.Line.Schedule}")) : null;
}
