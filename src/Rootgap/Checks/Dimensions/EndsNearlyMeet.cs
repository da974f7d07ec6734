using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.Checks;

internal sealed class EndsNearlyMeet : Rule
{
    /// <summary>A clear space on one axis wider than this may be meant, for something that is not in this drawing, mm.</summary>
    private const double Meant = 20;

    public override string Name => "ends-nearly-meet";
    public override Severity Severity => Severity.Warn;
    public override string Says => "The free ends of two runs look at each other and miss by 1 to 100 mm.";
    public override string Why => "They are meant to be joined: a chain of dimensions between the two does not close (common practice: axis by axis).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var pair in FreeEnd.Pairs(fabrication.Route))
        {
            if (pair.Meet || ElevationsDoNotMeet.IsOnlyUp(pair))
                continue;
            var (a, b) = (pair.First, pair.Second);
            var isClearSpace = pair.Apart.Dot(a.Out) > Meant && pair.Apart.SquareTo(a.Out).Length <= Tolerance.Closing;
            yield return Found(b.Source, b.PlaceKey, $"This end of run {b.Run.Name} misses the end of run {a.Run.Name} by {Axes.Say(fabrication.Units, pair.Apart)}.",
                "One dimension along that axis is wrong, or the two are not meant to meet: ask.", "The gap is found when the spools hang, and is pulled together.",
                isClearSpace ? Severity.Note : null);
        }
    }
}
