using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Standards;

namespace Rootgap.Checks;

/// <summary>A take-off that the shop measured and that no fitting of the standard has.</summary>
internal sealed class MeasuredUnusual : Rule
{
    /// <summary>More than the widest tolerance on a centre-to-end length, mm: 2 to NPS 24, 5 to NPS 48 (ASME B16.9 table of tolerances, from memory).</summary>
    private const double Off = 5;

    public override string Name => "measured-take-off-unusual";
    public override Severity Severity => Severity.Warn;
    public override string Says => "A take-off measured by the shop is more than 5 mm off the table's.";
    public override string Why => "A fitting so far off is out of the standard's tolerance (ASME B16.9: 2 mm to NPS 24, from memory), and a slipped digit spoils every piece beside it.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var shop = fabrication.Route.Drawing.Shop;
        var told = new HashSet<int>();
        foreach (var cut in fabrication.Cuts)
        {
            foreach (var term in cut.Sum)
            {
                if (term.Origin is Origin.Measured { InTable: { } table } measured && Math.Abs(-term.Mm - table) > Off && told.Add(measured.Item))
                {
                    yield return Found(shop.Source, "measured", Say(fabrication.Units, $"Item {measured.Item} is measured {-term.Mm:len}, and the table has {table:len} ({term.What})."),
                        "Measure the part again; if it is so, it is out of tolerance: ask before it is used.", "Every piece beside it is cut wrong by the difference.");
                }
            }
        }
    }
}
