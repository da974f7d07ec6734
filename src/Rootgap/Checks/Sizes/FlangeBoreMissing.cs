using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>A welding-neck or socket-weld flange without its bore, among others that have theirs.</summary>
internal sealed class FlangeBoreMissing : Rule
{
    public override string Name => "flange-bore-missing";
    public override Severity Severity => Severity.Warn;
    public override string Says => "A row of welding-neck or socket-weld flanges has no bore, and another flange row has one.";
    public override string Why => "ASME B16.5 7.4: the bore is named by who buys. Without it the flange comes as the maker has it, and steps inside.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var flanges = fabrication.Route.Drawing.Materials.Where(m => m.Words.Ware == Ware.Flange).ToList();
        if (!flanges.Exists(m => m.Bore.Length > 0))
            yield break;
        foreach (var item in flanges)
        {
            if (item.Bore.Length == 0 && item.Schedule.Length == 0 && item.Words.Flange is FlangeKind.WeldNeck or FlangeKind.SocketWeld)
                yield return Found(item.Source, "what", Say($"Item {item.Item}, {item.What}, has no bore."), "Add `bore:`, the schedule of the pipe.", "The flange steps inside the weld.");
        }
    }
}
