using Rootgap.Fabricating;
using Rootgap.FitUp;
using Rootgap.Routes;

namespace Rootgap.Sheets;

/// <summary>
/// What goes behind the sheets of a drawing's spools: how each is lifted, and its fit-up cards in the order of work, cut apart along the gaps.
/// </summary>
public static class FitUpPages
{
    /// <summary>One card for each weld of a spool, in the order of work.</summary>
    public static IReadOnlyList<FitUpJob> Cards(FitJoints fitting, Fabrication f, Spool spool)
    {
        var fit = fitting.OfSpool(spool);
        return [.. FitWork.Cards(fit, FitOrder.Of(fit)).Select(card => Job(f, card))];
    }

    /// <summary>A card with the names that its parts have on the other sheets.</summary>
    public static FitUpJob Job(Fabrication f, FitCard card) => new(card, new(f.Route.Drawing.Units, id => Wording.NameOf(f, id)))
    {
        Code = QrFigure.Of($"{f.Route.Drawing.Number} rev {f.Route.Drawing.Revision} {card.Step.Joint.Name}", 10),
    };

    /// <summary>The pages of one spool.</summary>
    public static IEnumerable<Page> Of(ShopJob job, FitJoints fitting, Spool spool) => new CardStack(job, fitting, [spool]).Pages();

    /// <summary>A pipe and what is welded to its ends: its joints are rows of the spool's own check table, and a card would say nothing more.</summary>
    internal static bool HasRowsOnly(Spool spool) =>
        spool.Cuts.Count == 1 && spool.Cuts.Count + spool.Components.Count <= 3 && spool.Joints.Where(j => j.IsWeld).All(j => j.Kind == JointKind.Butt);
}
