using Rootgap.FitUp;

namespace Rootgap.Records;

/// <summary>A reading of a final check with the fact that it stands in.</summary>
public sealed record KeptEnd(SpoolRead Fact, EndTaken Taken);

/// <summary>The final check of a spool as the job's facts have it.</summary>
public static class SpoolGoneOver
{
    /// <summary>
    /// The readings that count: of each the last one, of the spool in the check's state and set by the check's base. One that cannot be read at its ends does not count, nor
    /// does one of the spool tacked that was taken before a weld drew in: the spool was longer then.
    /// </summary>
    /// <param name="counting">Facts of the spool that are not withdrawn, as they read on the drawing now, by time.</param>
    /// <param name="drewIn">When a weld of the spool drew in last; null where none has.</param>
    public static IReadOnlyList<KeptEnd> Of(FinalCheck check, IEnumerable<SpoolRead> counting, DateTimeOffset? drewIn = null)
    {
        List<KeptEnd> kept = [];
        foreach (var fact in counting)
        {
            if (fact.IsTacked == check.IsWelded || check.Base is not { } from || check.Find(fact.Base) != from || (fact.IsTacked && fact.Time < drewIn))
                continue;
            kept.AddRange(FinalReadings.OfRow(check, fact.Row).Select(t => new KeptEnd(fact, t)));
        }

        return [.. kept.GroupBy(k => k.Taken.Reading).Select(g => g.Last())];
    }
}
