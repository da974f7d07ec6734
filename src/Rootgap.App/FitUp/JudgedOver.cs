using Rootgap.FitUp;
using Rootgap.Measure;
using Rootgap.Records;
using Rootgap.Sheets;

namespace Rootgap.App.FitUp;

/// <summary>A going-over of a joint with what its readings say.</summary>
/// <param name="Found">Null where no reading counts that can be used.</param>
/// <param name="Say">What to do.</param>
/// <param name="Wrong">Readings that cannot be, or that the joint does not have as it is drawn now.</param>
/// <param name="IsSeen">The readings show all that matters.</param>
public sealed record JudgedOver(GoingOver Over, Diagnosis? Found, IReadOnlyList<string> Say, IReadOnlyList<string> Wrong, bool IsSeen)
{
    /// <summary>The part that was held, as it is called in the shop.</summary>
    public string Held { get; private init; } = Over.Held;

    /// <param name="card">The joint as it stood for these readings.</param>
    public static JudgedOver Of(GoingOver over, FitUpJob card, Units units)
    {
        var taken = over.Counting.Select(r => r.Taken).ToList();
        var wrong = taken.Select(t => (Taken: t, Wrong: FitReadings.Wrong(t, card.Standing))).Where(w => w.Wrong is not null).ToList();
        List<Taken> usable = [.. taken.Except(wrong.Select(w => w.Taken))];
        List<string> words = [.. wrong.Select(w => $"{w.Wrong!.Value.Message} It is left out.")];
        var held = over.Held == card.Step.Joint.New.Id ? card.Step.Joint.New : card.Step.Joint.Held;
        if (usable.Count == 0)
            return new(over, null, [], words, false) { Held = held.Label };
        var found = Diagnosis.Of(card.Standing, card.Limits, usable, card.Targets);
        var isSeen = !found.Unseen.Any(i => i != 5 || !card.Standing.Joint.RollIsFree);
        return new(over, found, Remedy.Say(card.Standing, card.Limits, found, units), words, isSeen) { Held = held.Label };
    }
}
