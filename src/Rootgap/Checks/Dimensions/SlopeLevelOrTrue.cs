using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

internal sealed class SlopeLevelOrTrue : Rule
{
    public override string Name => "slope-level-or-true";
    public override Severity Severity => Severity.Note;
    public override string Says => "The level length of a sloped leg and its length along the pipe differ by more than 1 mm.";
    public override string Why => "A dimension along a sloped pipe may be meant level or along the slope; they differ by L(1/cos - 1) (geometry; common practice: level).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var run in fabrication.Route.Drawing.Runs)
        {
            foreach (var leg in run.Legs)
            {
                if (leg.Slope == 0 || leg.Distance is not { } along || (leg.By ?? leg.Go.Length) is var level && along - level <= 1)
                    continue;
                yield return Found(leg.Source, "by", Say(fabrication.Units, $"{level:len} level is {along:len} along the slope."),
                    "See that the drawing's figure is the level one.", Say(fabrication.Units, $"The piece is cut {along - level:len} wrong."));
            }
        }
    }
}
