using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.Checks;

internal sealed class ElevationsDoNotMeet : Rule
{
    public override string Name => "elevations-do-not-meet";
    public override Severity Severity => Severity.Warn;
    public override string Says => "The free ends of two runs look at each other and differ in elevation only.";
    public override string Why => "They agree in plan, so they are meant to be joined; one elevation is wrong, or is given to another line of the pipe, such as its underside (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var pair in FreeEnd.Pairs(fabrication.Route))
        {
            if (pair.Meet || !IsOnlyUp(pair))
                continue;
            var (a, b) = (pair.First, pair.Second);
            yield return Found(b.Source, b.PlaceKey,
                Say(fabrication.Units, $"This end of run {b.Run.Name} stands at elevation {b.At.Z:len}, the end of run {a.Run.Name} that it looks at stands at {a.At.Z:len}: {Math.Abs(pair.Apart.Z):len} {(pair.Apart.Z > 0 ? "higher" : "lower")}."),
                "See which elevation is right, and whether both are given to the centreline.", "The two ends do not meet at site.");
        }
    }

    /// <summary>In plan the two stand right for each other, and the pipe is not upright.</summary>
    internal static bool IsOnlyUp(MeetingEnds pair)
    {
        var plan = pair.Apart with { Z = 0 };
        return Math.Abs(pair.First.Out.Z) < 0.1 && Math.Abs(pair.Apart.Z) > Tolerance.Closing && plan.SquareTo(pair.First.Out).Length <= Tolerance.Closing && plan.Length <= 8;
    }
}
