using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

/// <summary>A shrinkage that no butt weld has, or half of what one has: the figure once meant half a weld.</summary>
internal sealed class ShrinkageUnusual : Rule
{
    /// <summary>Beyond this the figure is a slip rather than a habit.</summary>
    private const double HardlyMost = 6;

    public override string Name => "shrinkage-unusual";
    public override Severity Severity => Severity.Warn;
    public override string Says => "The shop's weld shrinkage is outside 1.5 to 3 mm: a note; over 6 mm a warning.";
    public override string Why => "A butt weld draws a line together by 1.5 to 3 mm (TWI, How much shall I allow for weld shrinkage). The figure is the mean of one whole weld; older files gave half of it.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var shop = fabrication.Route.Drawing.Shop;
        if (shop.Shrinkage is not (> 0 and var draws) || draws is >= Spooling.ShrinkageLow and <= Spooling.ShrinkageHigh || fabrication.Cuts.All(c => c.Allowance <= 0))
            yield break;
        yield return Found(shop.Source, "shrinkage", Say(fabrication.Units, $"A butt weld is taken to shorten the line by {draws:small}; {Spooling.ShrinkageLow:small} to {Spooling.ShrinkageHigh:small} is usual."),
            draws < Spooling.ShrinkageLow ? "Give the mean of one whole weld as your shop measured it. Where half of it was written, as older files had it, double it; if it is meant, accept this with the reason."
            : "Look whether a digit slipped; if it is meant, accept this with the reason.", severity: draws > HardlyMost ? Severity.Warn : Severity.Note);
    }
}
