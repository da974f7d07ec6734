using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.FitUp;
using Rootgap.Routes;

namespace Rootgap.Sheets;

/// <summary>
/// What goes behind the sheets of a drawing's spools: how each is lifted, and its fit-up cards in the order of work, each as high as it needs, cut apart along the gaps.
/// A page takes cards of several spools, so that few are left half empty.
/// </summary>
public static class FitUpPages
{
    private const double Gap = 2, MostMore = 10;

    /// <summary>Paper that is worth taking cards out of their order for, mm.</summary>
    private const double Slack = 12;

    /// <summary>Of so many cards that come next a page takes the ones that fill it.</summary>
    private const int Ahead = 9;

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

    /// <summary>A card on the stack.</summary>
    /// <param name="Joint">Name of the joint; empty on the card for lifting.</param>
    /// <param name="IsSocket">Whether what is said of sockets holds for it.</param>
    /// <param name="Grows">Whether more height helps the pen.</param>
    private sealed record Item(string Spool, string Joint, double Height, bool IsStrip, bool IsSocket, bool Grows, Action<Canvas, Box, bool> Draw);

    /// <summary>The pages of one spool.</summary>
    public static IEnumerable<Page> Of(ShopJob job, FitJoints fitting, Spool spool) => Of(job, fitting, [spool]);

    /// <summary>The pages of spools that go together.</summary>
    public static IEnumerable<Page> Of(ShopJob job, FitJoints fitting, IReadOnlyList<Spool> spools)
    {
        var paper = job.Paper.Portrait;
        var block = job.Block("cards", Reader.Fitter) with { IsLow = true, Project = "" };
        var content = block.Content(paper);
        List<Item> items = [];
        List<Page> missing = [];
        List<FitUpJob> sockets = [];
        foreach (var spool in spools)
        {
            var before = items.Count;
            var left = MissingSheet.Instead(job, $"Spool {spool.Name}: lifting and fit-up", () =>
            {
                if (LiftPages.Card(job, spool, content.Width) is { } lift)
                    items.Add(new(spool.Name, "", lift.Height, false, false, false, (canvas, box, _) => LiftPages.Draw(canvas, box, lift)));
                if (HasRowsOnly(spool))
                    return [];
                var cards = Cards(fitting, job.Fabrication, spool).Select(c => c with { IsShort = true, Spool = spool.Name }).ToList();
                sockets.AddRange(cards.Where(c => c.Step.Joint.Weld == FitWeld.Socket));
                items.AddRange(cards.Select(c => new Item(spool.Name, c.Step.Joint.Name, Math.Min(content.Height - 20, FitUpCard.Needs(c, content.Width)), c.IsStrip, c.Step.Joint.Weld == FitWeld.Socket, !c.IsStrip, (canvas, box, withHeads) => FitUpCard.Draw(canvas, box, c, withHeads))));
                return [];
            });
            if (left.Count > 0)
                items.RemoveRange(before, items.Count - before);
            missing.AddRange(left);
        }

        // What holds for all cards of a page stands above them; what holds for sockets, only where there are some.
        var forAll = TextStyle.Small.Wrap(FitUpCard.ForAll(job.Drawing.Units), content.Width);
        var withSockets = sockets.Count == 0 ? forAll : TextStyle.Small.Wrap($"{FitUpCard.ForAll(job.Drawing.Units)} {FitUpCard.ForSockets(sockets[0])}", content.Width);
        double Above(List<Item> page) => (page.Exists(i => i.IsSocket) ? withSockets : forAll).Count * TextStyle.Small.Pitch;
        foreach (var page in Pages(items, page => content.Height - Above(page)))
        {
            var words = page.Exists(i => i.IsSocket) ? withSockets : forAll;
            var area = content.CutTop(Above(page)).Remainder;
            var names = page.Select(i => i.Spool).Distinct(StringComparer.Ordinal).ToList();
            var own = block with { Title = TitleOf(page, names), Spool = names.Count == 1 ? names[0] : "" };
            missing.AddRange(MissingSheet.Instead(job, own.Title, () =>
            {
                return [Page.Draw(paper, own, (canvas, box) =>
                {
                    canvas.Lines(words, box.X, box.Y, box.Width, TextStyle.Small, Anchor.Start);
                    Stack(canvas, area, page);
                })];
            }));
        }

        return missing;
    }

    private static string TitleOf(List<Item> page, List<string> spools)
    {
        if (spools.Count > 1)
            return $"cards of spools {FitWords.Join(spools)}";
        var joints = page.Select(i => i.Joint).Where(j => j.Length > 0).ToList();
        var fitted = joints.Count switch { 0 => "", <= 3 => "fit-up " + FitWords.Join(joints), _ => $"fit-up {joints[0]} to {joints[^1]}" };
        return $"spool {spools[0]}: {string.Join(", ", new[] { page.Exists(i => i.Joint.Length == 0) ? "lifting" : "", fitted }.Where(t => t.Length > 0))}";
    }

    private static void Stack(Canvas canvas, Box area, List<Item> page)
    {
        // What is left goes to the cards, so that a pen has it.
        var growing = page.Count(i => i.Grows);
        var more = growing == 0 ? 0 : Math.Min(MostMore, (area.Height - Height(page)) / growing);
        var y = area.Y;
        for (var i = 0; i < page.Count; i++)
        {
            var isBelow = IsBelow(page, i);
            var height = page[i].Height - (isBelow ? FitUpCard.ColumnHeads : 0) + (page[i].Grows ? more : 0);
            page[i].Draw(canvas, new(area.X, y, area.Width, height), !isBelow);
            y += height + Gap;
        }
    }

    private static bool IsBelow(List<Item> page, int i) => i > 0 && page[i].IsStrip && page[i - 1].IsStrip;

    private static double Height(List<Item> page) => page.Select((item, i) => item.Height - (IsBelow(page, i) ? FitUpCard.ColumnHeads : 0) + Gap).Sum() - Gap;

    /// <summary>A pipe and what is welded to its ends: its joints are rows of the spool's own check table, and a card would say nothing more.</summary>
    internal static bool HasRowsOnly(Spool spool) =>
        spool.Cuts.Count == 1 && spool.Cuts.Count + spool.Components.Count <= 3 && spool.Joints.Where(j => j.IsWeld).All(j => j.Kind == JointKind.Butt);

    // In the order of work: a page begins with the first card that is left and takes of the next few those that fill it best, so that cards of a spool stay near each other.
    private static List<List<Item>> Pages(IReadOnlyList<Item> items, Func<List<Item>, double> room)
    {
        List<List<Item>> pages = [];
        List<Item> left = [.. items];
        while (left.Count > 0)
        {
            var best = Fill([left[0]], 1);
            pages.Add(best);
            left.RemoveAll(best.Contains);
        }

        return pages;

        List<Item> Fill(List<Item> page, int from)
        {
            var best = page;
            for (var i = from; i < Math.Min(left.Count, Ahead); i++)
            {
                List<Item> more = [.. page, left[i]];
                if (Height(more) > room(more) + 1e-6)
                    continue;
                var full = Fill(more, i + 1);
                if (Height(full) > Height(best) + Slack)
                    best = full;
            }

            return best;
        }
    }
}
