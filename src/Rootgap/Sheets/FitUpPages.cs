using Rootgap.Fabricating;
using Rootgap.FitUp;

namespace Rootgap.Sheets;

/// <summary>The fit-up cards of a spool, two to a page, in the order of work, and at the end the card of the final dimensional check.</summary>
public static class FitUpPages
{
    /// <summary>One card for each weld of a spool, in the order of work.</summary>
    public static IReadOnlyList<FitUpJob> Cards(FitJoints fitting, Fabrication f, Spool spool)
    {
        var steps = FitOrder.Of(fitting.OfSpool(spool));
        var welds = fitting.Welds.ToDictionary(w => w.Id, StringComparer.Ordinal);
        List<FitUpJob> cards = [];
        foreach (var step in steps)
        {
            var standing = new StandingJoint(step.Joint, step.SetUp);
            var limits = fitting.Limits(welds[step.Joint.Name], step.Joint);
            cards.Add(new(step, steps.Count, standing, limits, Targets.Of(standing, limits), Names(f, step.Joint)));
        }
        return cards;
    }

    /// <summary>What the parts of a joint are called on the other sheets.</summary>
    public static IReadOnlyDictionary<string, string> Names(Fabrication f, FitJoint joint) => new Dictionary<string, string>(StringComparer.Ordinal)
    {
        [joint.Held.Id] = Wording.NameOf(f, joint.Held.Id),
        [joint.New.Id] = Wording.NameOf(f, joint.New.Id),
    };

    public static IEnumerable<Page> Of(ShopJob job, FitJoints fitting, Spool spool)
    {
        var cards = Cards(fitting, job.Fabrication, spool);
        for (var first = 0; first < cards.Count; first += 2)
        {
            var pair = cards.Skip(first).Take(2).ToList();
            var title = $"Spool {spool.Name}: fit-up {string.Join(" and ", pair.Select(c => c.Step.Joint.Name))}";
            yield return Page.Draw(job.Paper.Portrait, job.Block(title), (canvas, box) =>
            {
                const double Gap = 4;
                var height = (box.Height - Gap) / 2;
                for (var i = 0; i < pair.Count; i++)
                    FitUpCard.Draw(canvas, new Box(box.X, box.Y + (i * (height + Gap)), box.Width, height), pair[i]);
            });
        }
        foreach (var page in SpoolCheckCard.Of(job, spool))
            yield return page;
    }
}
