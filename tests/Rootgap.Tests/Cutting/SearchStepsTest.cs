using System.Globalization;
using Rootgap.Cutting;

namespace Rootgap.Tests.Cutting;

/// <summary>
/// How far the search goes until it is done, in looks at its clock and not in seconds: a step in it that leads it astray still ends with a plan that holds, only later. The
/// accepted figures are those of the search as it was passed; a better one has others, and is then accepted anew.
/// </summary>
public class SearchStepsTest
{
    /// <summary>A clock that goes on by one each time somebody looks.</summary>
    private sealed class Looks : TimeProvider
    {
        public long Count { get; private set; }

        public override long TimestampFrequency => TimeSpan.TicksPerSecond;

        public override long GetTimestamp() => ++Count;
    }

    /// <summary>More looks than any of these takes.</summary>
    private static readonly TimeSpan Enough = TimeSpan.FromTicks(300_000);

    [Fact]
    public void The_search_goes_no_other_way_than_accepted() => Accepted.Same("accepted-steps.txt", Enumerable.Range(1, 60).Select(seed =>
    {
        var clock = new Looks();
        var solution = Task(seed).Solve(Enough, clock, TestContext.Current.CancellationToken);
        return (string.Create(CultureInfo.InvariantCulture, $"{seed}"), string.Create(CultureInfo.InvariantCulture, $"{clock.Count} looks, {solution.Bars} bars, {solution.Bound} at least, {solution.Proven}: {string.Join("; ", solution.Patterns.Select(p => $"{p.Count} of {string.Join(' ', p.Cuts)}"))}"));
    }));

    [Fact]
    public void Racks_are_searched_no_other_way_than_accepted() => Accepted.Same("accepted-steps-of-racks.txt", Enumerable.Range(1, 40).Select(seed =>
    {
        var (pieces, rack) = AcceptedPlansTest.Job(seed);
        var clock = new Looks();
        var plan = CuttingPlanner.Plan(rack.Rule(pieces), rack, Enough, clock, stop: TestContext.Current.CancellationToken);
        return (string.Create(CultureInfo.InvariantCulture, $"{seed}"), string.Create(CultureInfo.InvariantCulture, $"{clock.Count} looks, {plan.Groups.Sum(g => g.Bars.Count)} bars"));
    }));

    // Pieces between a tenth and seven tenths of a bar, few or many of a kind.
    private static PlainInstance Task(int seed)
    {
        var chance = new Random(seed);
        var kinds = Enumerable.Range(0, 8 + chance.Next(30)).Select(_ => ((decimal)(600 + chance.Next(3600)), 1 + chance.Next(seed % 3 == 0 ? 12 : 3))).DistinctBy(k => k.Item1).ToList();
        return new(6000, kinds);
    }
}
