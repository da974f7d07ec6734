using Rootgap.Measure;

namespace Rootgap.FitUp;

/// <summary>Where the errors that stay at the joints leave an end of the spool, seen from its base.</summary>
/// <param name="End">The end.</param>
/// <param name="Error">In the end's own axes.</param>
/// <param name="IsWithin">Inside the end's limits.</param>
/// <param name="By">The joints still open that can take it back, the best first.</param>
public sealed record EndLeft(OpenEnd End, PoseError Error, bool IsWithin, IReadOnlyList<TakeBack> By)
{
    /// <summary>What the joints as made leave at each end.</summary>
    /// <param name="check">The spool.</param>
    /// <param name="steps">Its order of work.</param>
    /// <param name="made">What is known of a joint made; null where it is still open.</param>
    public static IReadOnlyList<EndLeft> Of(FinalCheck check, IReadOnlyList<FitStep> steps, Func<string, JointAsMade?> made)
    {
        if (check.Base is not { } from || steps.Count == 0)
            return [];
        var spool = check.Spool;
        var (found, drawn) = (FitWork.Cards(spool, steps, made)[^1].After.SeenFrom(from.Part.Id), FitWork.WithoutErrors(spool, steps, made).SeenFrom(from.Part.Id));
        List<EndLeft> left = [];
        foreach (var end in check.Ends.Where(e => e != from))
        {
            // From where it would be without errors, tacked or drawn in as it is, to where it is with them; carried to its place as drawn.
            var off = found(end.Part.Id).After(drawn(end.Part.Id).Inverse);
            var error = end.ErrorOf(off);
            List<TakeBack> by = [];
            if (error != PoseError.None)
            {
                foreach (var open in steps.Where(s => made(s.Weld.Id) is null))
                    if (FitWork.TakeBack(spool, open, from.Part.Id, end.Part.Id, off) is { } back)
                        by.Add(back);
            }

            left.Add(new(end, error, check.Limits[end.Name].Holds(error), [.. FitWork.BestFirst(by)]));
        }

        return left;
    }
}
