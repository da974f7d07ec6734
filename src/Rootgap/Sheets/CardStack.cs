using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.FitUp;

namespace Rootgap.Sheets;

/// <summary>
/// The cards of a drawing's spools in the order of work: how each spool is lifted, and its fit-up. Each is as high as it needs. The back of a spool's sheet takes the first of that spool for which it has room,
/// pages take the others, of several spools, so that few are left half empty. Nowhere does one come before another that is made before it.
/// </summary>
internal sealed class CardStack
{
    private const double Gap = 2, MostMore = 10, Between = 10;

    private readonly ShopJob job;
    private readonly Paper paper;
    private readonly TitleBlock block;
    private readonly Box content;
    private readonly List<Page> missing = [];
    private readonly List<Card> left = [];
    private readonly List<FitUpJob> sockets = [];

    /// <summary>A card on the stack.</summary>
    /// <param name="Joint">Name of the joint; empty on the card for lifting.</param>
    /// <param name="IsSocket">Whether what is said of sockets holds for it.</param>
    /// <param name="Grows">Whether more height helps the pen.</param>
    private sealed record Card(string Spool, string Joint, double Height, bool IsStrip, bool IsSocket, bool Grows, Action<Canvas, Box, bool> Draw);

    public CardStack(ShopJob job, FitJoints fitting, IReadOnlyList<Spool> spools)
    {
        (this.job, paper) = (job, job.Paper.Portrait);
        block = job.Block("cards", Reader.Fitter) with { IsLow = true, Project = "" };
        content = block.Content(paper);
        foreach (var spool in spools)
        {
            var before = left.Count;
            var notMade = MissingSheet.Instead(job, $"Spool {spool.Name}: lifting and fit-up", () =>
            {
                if (LiftPages.Card(job, spool, content.Width) is { } lift)
                    left.Add(new(spool.Name, "", lift.Height, false, false, false, (canvas, box, _) => LiftPages.Draw(canvas, box, lift)));
                if (FitUpPages.HasRowsOnly(spool))
                    return [];
                var cards = FitUpPages.Cards(fitting, job.Fabrication, spool).Select(c => c with { IsShort = true, Spool = spool.Name }).ToList();
                sockets.AddRange(cards.Where(c => c.Step.Joint.Weld == FitWeld.Socket));
                left.AddRange(cards.Select(c => new Card(spool.Name, c.Step.Joint.Name, Math.Min(content.Height - 20, FitUpCard.Needs(c, content.Width)), c.IsStrip, c.Step.Joint.Weld == FitWeld.Socket, !c.IsStrip, (canvas, box, withHeads) => FitUpCard.Draw(canvas, box, c, withHeads))));
                return [];
            });
            if (notMade.Count > 0)
                left.RemoveRange(before, left.Count - before);
            missing.AddRange(notMade);
        }
    }

    /// <summary>The next cards of a spool, in as many columns as a room has, with what holds for all of them above; they are off the stack then. Null where none has room.</summary>
    public Figure? Take(Spool spool, double width, double height)
    {
        var words = Words(width, left.Exists(c => c.Spool == spool.Name && c.IsSocket));
        var above = (words.Count * TextStyle.Small.Pitch) + 1;
        List<List<Card>> columns = [];
        var own = left.Where(c => c.Spool == spool.Name).ToList();
        for (var column = 0; column < (int)((width + Between) / (content.Width + Between)); column++)
        {
            if (own.Count == 0 || own[0].Height > height - above)
                break;
            columns.Add(Fill(own, _ => height - above));
            own.RemoveRange(0, columns[^1].Count);
        }

        if (columns.Count == 0)
            return null;
        try
        {
            var canvas = new Canvas();
            canvas.Lines(words, 0, 0, width, TextStyle.Small, Anchor.Start);
            for (var i = 0; i < columns.Count; i++)
                Stack(canvas, new(i * (content.Width + Between), above, content.Width, height - above), columns[i]);
            left.RemoveAll(c => columns.Exists(column => column.Contains(c)));
            return canvas.ToFigure(width, height);
        }
        catch (Exception e) when (ProgramFault.IsOne(e))
        {
            // They stay on the stack, and cost the page on which they come.
            return null;
        }
    }

    /// <summary>The cards that are left, on pages of their own.</summary>
    public IReadOnlyList<Page> Pages()
    {
        List<Page> pages = [.. missing];
        while (left.Count > 0)
        {
            var page = Fill(left, cards => content.Height - Above(cards));
            left.RemoveRange(0, page.Count);
            var words = Words(content.Width, page.Exists(c => c.IsSocket));
            var area = content.CutTop(Above(page)).Remainder;
            var names = page.Select(c => c.Spool).Distinct(StringComparer.Ordinal).ToList();
            var own = block with { Title = TitleOf(page, names), Spool = names.Count == 1 ? names[0] : "" };
            pages.AddRange(MissingSheet.Instead(job, own.Title, () =>
            {
                return [Page.Draw(paper, own, (canvas, box) =>
                {
                    canvas.Lines(words, box.X, box.Y, box.Width, TextStyle.Small, Anchor.Start);
                    Stack(canvas, area, page);
                })];
            }));
        }

        return pages;
    }

    // What holds for all cards of a page; what holds for sockets, only where there are some.
    private IReadOnlyList<string> Words(double width, bool withSockets) =>
        TextStyle.Small.Wrap(withSockets ? $"{FitUpCard.ForAll(job.Drawing.Units)} {FitUpCard.ForSockets(sockets[0])}" : FitUpCard.ForAll(job.Drawing.Units), width);

    private double Above(List<Card> page) => Words(content.Width, page.Exists(c => c.IsSocket)).Count * TextStyle.Small.Pitch;

    private static string TitleOf(List<Card> page, List<string> spools)
    {
        if (spools.Count > 1)
            return $"cards of spools {FitWords.Join(spools)}";
        var joints = page.Select(c => c.Joint).Where(j => j.Length > 0).ToList();
        var fitted = joints.Count switch { 0 => "", <= 3 => "fit-up " + FitWords.Join(joints), _ => $"fit-up {joints[0]} to {joints[^1]}" };
        return $"spool {spools[0]}: {string.Join(", ", new[] { page.Exists(c => c.Joint.Length == 0) ? "lifting" : "", fitted }.Where(t => t.Length > 0))}";
    }

    private static void Stack(Canvas canvas, Box area, List<Card> page)
    {
        // What is left goes to the cards, so that a pen has it.
        var growing = page.Count(c => c.Grows);
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

    private static bool IsBelow(List<Card> page, int i) => i > 0 && page[i].IsStrip && page[i - 1].IsStrip;

    private static double Height(List<Card> page) => page.Select((card, i) => card.Height - (IsBelow(page, i) ? FitUpCard.ColumnHeads : 0) + Gap).Sum() - Gap;

    // The cards that come next, as many as the room holds; the first in any case.
    private static List<Card> Fill(List<Card> cards, Func<List<Card>, double> room)
    {
        List<Card> page = [cards[0]];
        while (page.Count < cards.Count && cards[..(page.Count + 1)] is var more && Height(more) <= room(more) + 1e-6)
            page = more;
        return page;
    }
}
