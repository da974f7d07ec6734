using Rootgap.Fabricating;
using Rootgap.FitUp;

namespace Rootgap.Sheets;

/// <summary>The fit-up cards of a spool, two to a page, in the order of work.</summary>
public static class FitUpPages
{
    /// <summary>One card for each weld of a spool, in the order of work.</summary>
    public static IReadOnlyList<FitUpJob> Cards(FitJoints fitting, Fabrication f, Spool spool)
    {
        var fit = fitting.OfSpool(spool);
        return [.. FitWork.Cards(fit, FitOrder.Of(fit)).Select(card => Job(f, card))];
    }

    /// <summary>A card with the names that its parts have on the other sheets.</summary>
    public static FitUpJob Job(Fabrication f, FitCard card) => new(card, new(f.Route.Drawing.Units, id => Wording.NameOf(f, id)));

    public static IEnumerable<Page> Of(ShopJob job, FitJoints fitting, Spool spool)
    {
        var cards = Cards(fitting, job.Fabrication, spool);
        for (var first = 0; first < cards.Count; first += 2)
        {
            var pair = cards.Skip(first).Take(2).ToList();
            var title = $"spool {spool.Name}: fit-up {string.Join(" and ", pair.Select(c => c.Step.Joint.Name))}";
            yield return Page.Draw(job.Paper.Portrait, job.Block(title, Reader.Fitter, spool.Name), (canvas, box) =>
            {
                const double Gap = 4;
                var height = (box.Height - Gap) / 2;
                for (var i = 0; i < pair.Count; i++)
                    FitUpCard.Draw(canvas, new Box(box.X, box.Y + (i * (height + Gap)), box.Width, height), pair[i]);
            });
        }
    }
}
