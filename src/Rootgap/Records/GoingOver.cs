using Rootgap.FitUp;

namespace Rootgap.Records;

/// <summary>A reading with the fact that it stands in.</summary>
public sealed record KeptReading(Entry<ReadingsTaken> Entry, Taken Taken);

/// <summary>
/// What one person read at a joint in one going-over: same part held, same set-up, all of it while tacked or all of it after welding. Readings are kept as they are taken, each at once; of one that was
/// taken again the later counts.
/// </summary>
/// <param name="Id">Id of its first fact.</param>
/// <param name="IsWelded">Read after welding.</param>
/// <param name="All">Every reading, by time, also those that were taken back or taken again.</param>
public sealed record GoingOver(string Id, string Who, DrawingRef Drawing, string Joint, string SetUp, string Held, double? Mark, bool IsWelded, IReadOnlyList<KeptReading> All)
{
    /// <summary>The readings that count: of each the last that was not taken back.</summary>
    public IReadOnlyList<KeptReading> Counting { get; } =
        [.. All.Where(r => r.Entry.Counts).GroupBy(r => r.Taken.Reading).Select(g => g.Last())];

    public DateTimeOffset Begun => All[0].Entry.Fact.Time;

    public DateTimeOffset Ended => All[^1].Entry.Fact.Time;

    /// <summary>
    /// The goings-over in a joint's facts, by the time of their first. A fact that says it goes on from another, but is of another person, revision,
    /// set-up, held part, mark or state, stands for itself.
    /// </summary>
    public static IReadOnlyList<GoingOver> Of(IEnumerable<Entry<ReadingsTaken>> entries)
    {
        var all = entries.OrderBy(e => e.Fact, Fact.Order).ToList();
        return [.. all.GroupBy(e => (First: e.Fact.First ?? e.Fact.Id, e.Fact.Who, e.As.Drawing, SetUp: e.Fact.SetUp.ToUpperInvariant(), e.As.Held, e.Fact.Mark, e.Fact.IsWelded))
            .Select(g => (Fact: g.First().As, Readings: g.SelectMany(e => e.Fact.Readings.Select(t => new KeptReading(e, t))).ToList()))
            .Where(g => g.Readings.Count > 0)
            .Select(g => new GoingOver(g.Fact.First ?? g.Fact.Id, g.Fact.Who, g.Fact.Drawing, g.Fact.Joint, g.Fact.SetUp, g.Fact.Held, g.Fact.Mark, g.Fact.IsWelded, g.Readings))];
    }
}
