using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

/// <summary>An extra that is too short to help, or so long that it is scrap.</summary>
internal sealed class FinalFitExtraUnusual : Rule
{
    private const double UsualLeast = 50;
    private const double UsualMost = 150;

    /// <summary>Beyond this the figure is a slip rather than a habit: ten times too small or too large.</summary>
    private const double HardlyLeast = 15;

    private const double HardlyMost = 300;

    public override string Name => "final-fit-extra-unusual";
    public override Severity Severity => Severity.Warn;
    public override string Says => "The final-fit extra is outside 50 to 150 mm: a note; under 15 or over 300 mm a warning.";
    public override string Why => "Less does not cover what a building is out; more is cut off and thrown away (common practice: 50 to 150 mm).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var shop = fabrication.Route.Drawing.Shop;
        var extra = shop.FinalFitExtra;
        if (extra is 0 or (>= UsualLeast and <= UsualMost) || !fabrication.Route.Pipes.Any(p => p.ExtraAtStart || p.ExtraAtEnd))
            yield break;
        yield return Found(shop.Source, "final fit extra", Say(fabrication.Units, $"Final-fit welds get {extra:len} extra; {UsualLeast:len} to {UsualMost:len} is usual."),
            "Look whether a digit slipped; if it is meant, accept this with the reason.", severity: extra is < HardlyLeast or > HardlyMost ? Severity.Warn : Severity.Note);
    }
}
