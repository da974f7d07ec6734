using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

/// <summary>More listed than drawn.</summary>
internal sealed class QuantityOver : Rule
{
    /// <summary>Pipe is bought in lengths: so much more is no finding, m and share.</summary>
    private const double UsualMore = 0.5;

    private const double UsualShare = 0.15;

    /// <summary>So many times the need is no spare but a slip of the unit or the digit: metres for feet is 3.3 times.</summary>
    private const double Slipped = 2.5;

    /// <summary>... and so much more, pieces or m: two bolts for one are no slip.</summary>
    private const double SlippedBy = 8;

    public override string Name => "quantity-over";
    public override Severity Severity => Severity.Warn;
    public override string Says => "The list has more pieces than the drawing needs, or more than half a metre and 15 % more pipe; a warning for supports, where two rows are the same and one of them is over, where it is two and a half times the need, or where flanges and the gaskets that go with them are over alike, one at each or one for two.";
    public override string Why => "Spares may be meant; if not, a part of the drawing is missing or was counted twice (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var row in fabrication.Materials)
        {
            if (row.Item is not { } item || row.Listed is not { } listed || row.UsedBy.Count == 0)
                continue;
            var (all, needed) = Alike.Together(fabrication.Materials, row);
            if (all <= needed || (row.IsLength && all <= (needed * (1 + UsualShare)) + UsualMore))
                continue;
            yield return Found(item.Source, "quantity", row.IsLength
                    ? Say(fabrication.Units, $"Item {item.Item}, {item.What}: {needed:pipe} needed, {all:pipe} listed: {all - needed:pipe} over.")
                    : Say($"Item {item.Item}, {item.What}: {needed:0} needed, {all:0.##} listed: {all - needed:0.##} over."),
                IsWrittenTwice() ? "Look whether the row was written twice: another says the same." : IsSlip() ? "Look whether the unit or a digit slipped." : IsSupport() ? "Look whether a support was forgotten on the drawing: nobody lists spare ones." : IsAnEnd() ? "Look whether a flanged end or joint is missing on the drawing: its gasket is on the list, too." : "Look whether spares are meant.",
                severity: IsSlip() || IsSupport() || IsAnEnd() || IsWrittenTwice() ? Severity.Warn : Severity.Note);

            // Spare gaskets and studs are bought, spare flanges with just their gaskets are not.
            bool IsAnEnd() => item is { Words: { Ware: Ware.Flange, IsBlind: false } } && fabrication.Materials.Any(o =>
                o.Item is { Words.Ware: Ware.Gasket } gasket && gasket.Size == item.Size && o.Listed is { } gaskets && (gaskets - o.Needed == all - needed || 2 * (gaskets - o.Needed) == all - needed));

            // Two rows the same in all, and as much over as one of them.
            bool IsWrittenTwice() => Math.Abs(all - needed - listed) < 0.5 && fabrication.Materials.Any(o => !ReferenceEquals(o, row) && o.Item is { } twin && o.Listed is { } again && Math.Abs(again - listed) < 0.01 && Alike.Are(twin, item) && twin.Material.Equals(item.Material, StringComparison.OrdinalIgnoreCase) && twin.What.Equals(item.What, StringComparison.OrdinalIgnoreCase));

            bool IsSupport() => item.Words.Ware == Ware.Support;

            bool IsSlip() => all >= needed * Slipped && all - needed >= SlippedBy;
        }
    }
}
