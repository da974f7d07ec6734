using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

/// <summary>A steam trap whose strainer stands behind it.</summary>
internal sealed class StrainerBehindTrap : Rule
{
    public override string Name => "strainer-behind-trap";
    public override Severity Severity => Severity.Warn;
    public override string Says => "A strainer stands behind a steam trap as the run flows (as its legs are written, where it does not say), and none before it.";
    public override string Why => "Scale and weld beads lodge in the trap's seat: the strainer stands before it (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var run in fabrication.Route.Drawing.Runs)
        {
            var items = run.Legs.Where(l => l.To is InLineItemPoint).ToList();
            if (run.FlowsAlong is false)
                items.Reverse();
            var trap = items.FindIndex(l => Is(l, "trap"));
            if (trap >= 0 && !items.Take(trap).Any(l => Is(l, "strainer")) && items.Skip(trap + 1).FirstOrDefault(l => Is(l, "strainer")) is { } strainer)
                yield return Found(strainer.Source, "what", $"This strainer stands behind the steam trap ({fabrication.Route.Drawing.PlaceOf(items[trap].Source.Path)}), and none before it.", "Exchange the two, or look whether the flow is right.", "Dirt holds the trap open.");
        }
    }

    private static bool Is(Leg leg, string word) => leg.To is InLineItemPoint item && item.What.Contains(word, StringComparison.OrdinalIgnoreCase);
}
