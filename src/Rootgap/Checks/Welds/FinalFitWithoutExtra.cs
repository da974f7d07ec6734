using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>A final-fit weld, and the shop leaves nothing to trim.</summary>
internal sealed class FinalFitWithoutExtra : Rule
{
    public override string Name => "final-fit-without-extra";
    public override Severity Severity => Severity.Warn;
    public override string Says => "A weld is marked final-fit, and the shop's `final fit extra` is 0.";
    public override string Why => "The mark means that pipe is left long and trimmed at site. With no extra there is nothing to trim: if the gap comes out wide, the spool goes back (common practice: 50 to 150 mm).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        if (fabrication.Route.Drawing.Shop.FinalFitExtra > 0)
            yield break;
        foreach (var pipe in fabrication.Route.Pipes)
        {
            if (!pipe.ExtraAtStart && !pipe.ExtraAtEnd)
                continue;
            var (leg, key) = pipe.ExtraAtStart ? (pipe.FirstLeg, "begin") : (pipe.LastLeg, "end");
            var shop = fabrication.Route.Drawing.Shop.Source;
            var usual = fabrication.Units == Units.Inches ? "4 in" : "100 mm";
            yield return Found(fabrication.Route.RowOf(pipe.Run, leg), key, "This weld is final-fit, and the shop leaves 0 extra: there is nothing to trim.", "Set the shop's `final fit extra` (50 to 150 is usual), or mark the weld field.",
                "The gap comes out wide at site and the piece is too short.") with
            {
                Change = shop.Replace("final fit extra", usual, $"the shop's final fit extra is now {usual}"),
            };
        }
    }
}
