using Rootgap.Fabricating;
using Rootgap.FitUp;
using Rootgap.Routes;

namespace Rootgap.Sheets;

/// <summary>What goes behind a spool's sheet: how it is lifted, then its fit-up cards in the order of work, as many to a page as it holds, each as high as it needs.</summary>
public static class FitUpPages
{
    private const double Gap = 2;

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
    private sealed record Item(string Name, double Height, Action<Canvas, Box> Draw);

    public static IEnumerable<Page> Of(ShopJob job, FitJoints fitting, Spool spool)
    {
        var paper = job.Paper.Portrait;
        var block = job.Block($"spool {spool.Name}", Reader.Fitter, spool.Name) with { IsLow = true, Project = "" };
        var content = block.Content(paper);
        var words = TextStyle.Small.Wrap(FitUpCard.ForAll(job.Drawing.Units), content.Width);
        var area = content.CutTop(words.Count * TextStyle.Small.Pitch).Remainder;
        List<Item> items = [];
        if (LiftPages.Card(job, spool, area.Width) is { } lift)
            items.Add(new("lifting", lift.Height, (canvas, box) => LiftPages.Draw(canvas, box, lift)));
        if (!HasRowsOnly(spool))
            items.AddRange(Cards(fitting, job.Fabrication, spool).Select(card => new Item(card.Step.Joint.Name, Math.Min(area.Height, FitUpCard.Needs(card, area.Width)), (canvas, box) => FitUpCard.Draw(canvas, box, card))));
        foreach (var page in Pages(items, area.Height))
        {
            var joints = page.Where(i => i.Name != "lifting").Select(i => i.Name).ToList();
            var title = $"spool {spool.Name}: {string.Join(", ", new[] { page[0].Name == "lifting" ? "lifting" : "", Fitted(joints) }.Where(t => t.Length > 0))}";
            // What is left goes to the cards, so that a pen has it.
            var more = Math.Min(MostMore, (area.Height - page.Sum(i => i.Height) - ((page.Count - 1) * Gap)) / page.Count);
            yield return Page.Draw(paper, block with { Title = title }, (canvas, box) =>
            {
                canvas.Lines(words, box.X, box.Y, box.Width, TextStyle.Small, Anchor.Start);
                var y = area.Y;
                foreach (var item in page)
                {
                    var height = item.Height + (item.Name == "lifting" ? 0 : more);
                    item.Draw(canvas, new(area.X, y, area.Width, height));
                    y += height + Gap;
                }
            });
        }
    }

    private const double MostMore = 10;

    /// <summary>A pipe and what is welded to its ends: its joints are rows of the spool's own check table, and a card would say nothing more.</summary>
    internal static bool HasRowsOnly(Spool spool) =>
        spool.Cuts.Count == 1 && spool.Cuts.Count + spool.Components.Count <= 3 && spool.Joints.Where(j => j.IsWeld).All(j => j.Kind == JointKind.Butt);

    private static string Fitted(List<string> joints) => joints.Count == 0 ? "" : "fit-up " + (joints.Count == 1 ? joints[0] : string.Join(", ", joints.SkipLast(1)) + " and " + joints[^1]);

    // In the order of work, as many on a page as it holds.
    private static List<List<Item>> Pages(IReadOnlyList<Item> items, double room)
    {
        List<List<Item>> pages = [];
        foreach (var item in items)
        {
            if (pages.Count == 0 || pages[^1].Sum(i => i.Height + Gap) + item.Height > room + 1e-6)
                pages.Add([]);
            pages[^1].Add(item);
        }

        return pages;
    }
}
