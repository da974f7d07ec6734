using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>A drain that rises or a vent that hangs.</summary>
internal sealed class DrainOrVentWrongWay : Rule
{
    private const double Plainly = 0.5;

    public override string Name => "drain-or-vent-wrong-way";
    public override Severity Severity => Severity.Warn;
    public override string Says => "A run or branch called a drain leaves its header upwards, or one called a vent downwards; or a drain stands where the line is highest and nothing vents it.";
    public override string Why => "Water leaves at the bottom and air at the top (common practice): up and down are changed over.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var route = fabrication.Route;
        foreach (var pocket in Pocket.AllOf(route, 1))
        {
            var legs = route.Runs[pocket.Run].Run.Legs;
            if (pocket.HasBranch)
                continue;
            for (var l = pocket.FirstLeg; l < pocket.LastLeg; l++)
            {
                if (legs[l].To is OutletPoint { Drain.IsVent: false })
                    yield return Found(legs[l].Source, "to", "This drain stands at the highest stretch of its run, where air stays and no water.", "See whether a vent is meant.", "Air stays in the line.");
            }
        }

        foreach (var run in route.Runs)
        {
            if (run.Run.Start.From is not { } from || run.Directions.Count == 0)
                continue;
            var (drains, vents) = (Speaks("drain"), Speaks("vent"));
            var up = run.Directions[0].Z;
            if (drains == vents || !(drains ? up > Plainly : up < -Plainly))
                continue;
            yield return Found(run.Run.Legs[0].Source, "go", drains ? "This drain goes up from its header." : "This vent goes down from its header.", "See the direction on the drawing.", drains ? "The line cannot be emptied." : "Air stays in the line.");

            bool Speaks(string word) => IsWord(run.Run.Name, word) || IsWord(from, word);
        }
    }

    /// <summary>As a word of its own: ventilation is no vent.</summary>
    private static bool IsWord(string text, string word) => text.Split(' ', '-', '_', '.').Any(w => w.Equals(word, StringComparison.OrdinalIgnoreCase) || w.Equals(word + "s", StringComparison.OrdinalIgnoreCase));
}
