using Rootgap.FitUp;
using Rootgap.Routes;

namespace Rootgap.Records;

/// <summary>A spool as the job's facts have made it: which of its joints are tacked and in which order, how each was read last, which have drawn in.</summary>
public sealed class SpoolAsMade
{
    private readonly FitSpool spool;
    private readonly List<(Joint Weld, GoingOver? Over, DateTimeOffset? Welded)> made;
    private IReadOnlyList<FitStep>? steps;

    public SpoolAsMade(FitSpool spool, DrawingRecord done)
    {
        this.spool = spool;
        made =
        [
            .. spool.Welds
                .Select(w => (Weld: w, Welded: WeldedAt(w, done)))
                .Select(w => (w.Weld, At: DrawingRecord.Counting(done.Steps[w.Weld.Id]).Where(s => s.Step is Step.Tacked).Select(s => (DateTimeOffset?)s.Time).Append(w.Welded).Min(), w.Welded))
                .Where(w => w.At is not null)
                .OrderBy(w => w.At)
                .Select(w => (w.Weld, GoingOver.Of(done.Readings[w.Weld.Id]).Where(o => o.Counting.Count > 0).MaxBy(o => o.Ended), w.Welded)),
        ];
    }

    /// <summary>Since when a weld is welded: as a step says it, or readings that were taken after welding; null where nothing does.</summary>
    public static DateTimeOffset? WeldedAt(Joint weld, DrawingRecord done) =>
        DrawingRecord.Counting(done.Steps[weld.Id]).Where(s => s.Step == Step.Welded).Select(s => (DateTimeOffset?)s.Time)
            .Concat(GoingOver.Of(done.Readings[weld.Id]).Where(o => o is { IsWelded: true, Counting.Count: > 0 }).Select(o => (DateTimeOffset?)o.Begun)).Min();

    /// <summary>Whether a final check would be of the spool tacked, where nobody says so: not once all is welded; before, as it was read last; where it was not, as far as its joints are on record.</summary>
    /// <param name="read">Readings of its final check that count, by time.</param>
    public bool IsTacked(IReadOnlyList<SpoolRead> read) =>
        (spool.Welds.Count == 0 || made.Count(m => m.Welded is not null) < spool.Welds.Count) && (read.Count > 0 ? read[^1].IsTacked : made.Count > 0);

    /// <summary>When it changed its lengths last, by a weld that has drawn in; null where none has.</summary>
    public DateTimeOffset? DrewIn => made.Where(m => spool.DrawsIn(m.Weld)).Max(m => m.Welded);

    /// <summary>One word for all that cards and checks are made from: as long as it is the same, they are.</summary>
    public string Key { get => field ??= string.Join('|', made.Select(m => $"{m.Weld.Id} {m.Over?.Id} {m.Over?.IsWelded} {m.Over?.Counting.Count} {m.Over?.Ended.UtcTicks} {m.Welded is not null}")); }

    /// <summary>The order of work as it was really taken: what is tacked as it was, and the best order of the rest from there.</summary>
    public IReadOnlyList<FitStep> Steps
    {
        get
        {
            var welds = spool.Welds.ToList();
            return steps ??= FitOrder.Of(spool,
                [.. made.Select(m => SetUp.Parse(m.Over?.SetUp ?? "") is var (attitude, roll) ? new FitOrder.Wish(welds.IndexOf(m.Weld), attitude, roll) : new FitOrder.Wish(welds.IndexOf(m.Weld)))], andTheRest: true);
        }
    }

    /// <summary>What is known of a joint; null while it is neither tacked nor welded. What was read in the set-up of its step counts; what was read otherwise says nothing of it.</summary>
    /// <param name="steps">The order of work in question: <see cref="Steps"/>, or with one of them set up otherwise.</param>
    public JointAsMade? Joint(string id, IReadOnlyList<FitStep> steps)
    {
        if (made.Find(m => m.Weld.Id == id) is not { Weld: not null } known)
            return null;
        return known.Over is { } over && steps.FirstOrDefault(s => s.Weld.Id == id) is { } step
            && over.SetUp.Equals(step.SetUp.Word, StringComparison.OrdinalIgnoreCase) && (over.Held.Length == 0 || over.Held == step.Joint.Held.Id)
            ? new([.. over.Counting.Select(r => r.Taken)], null, over.Mark, over.IsWelded) { HasDrawnIn = known.Welded is not null }
            : new([], null, null, known.Welded is not null);
    }
}
