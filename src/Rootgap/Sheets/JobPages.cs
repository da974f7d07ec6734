using Rootgap.Findings;

namespace Rootgap.Sheets;

/// <summary>
/// The pages that run over all drawings of a job: the saw's list, the store's list, the joint register, what the welds take, bolting, the cover. Drawings are added one by one, and of each only the rows of these lists are kept.
/// </summary>
public sealed class JobPages
{
    private readonly List<SawRow> saw = [];
    private readonly List<StoreRow> store = [];
    private readonly List<BagRow> bags = [];
    private readonly List<RegisterRow> joints = [];
    private readonly List<QuantityRow> welds = [];
    private readonly List<BoltingRow> bolting = [];
    private readonly List<CoverRow> cover = [];

    public void Add(ShopJob job)
    {
        saw.AddRange(SawRow.Of(job));
        store.AddRange(StoreRow.Of(job));
        bags.AddRange(BagRow.Of(job));
        joints.Add(RegisterRow.Of(job));
        welds.Add(QuantityRow.Of(job));
        bolting.Add(BoltingRow.Of(job));
        cover.Add(CoverRow.Of(job));
    }

    /// <summary>The lists of a reader.</summary>
    public IReadOnlyList<Page> Lists(Paper paper, Reader who) =>
    [
        .. who.Takes(Reader.Saw) ? Instead("Cut list", paper, () => SawList.Of(saw, cover.Count, paper)) : [],
        .. who.Takes(Reader.Store) ? Instead("Store list", paper, () => StoreList.Of(store, bags, cover.Count, paper)) : [],
        .. who.Takes(Reader.Inspector) ? Instead("Joint register", paper, () => JointRegister.Of(joints, paper)) : [],
        .. who.Takes(Reader.Inspector) ? Instead("Welds: what they take", paper, () => QuantityPages.Of(welds, paper)) : [],
        .. who.Takes(Reader.Site) ? Instead("Bolting", paper, () => BoltingList.Of(bolting, paper)) : [],
    ];

    /// <summary>The cover, before pages that are counted already.</summary>
    /// <param name="pages">How many pages each reader has, the cover aside, in the order in which they are bound.</param>
    /// <param name="firsts">Of each drawing, its isometric's and its first spool's place among those pages, from 1; 0 where it has none.</param>
    public IReadOnlyList<Page> Cover(Paper paper, IReadOnlyList<(Reader Reader, int Count)> pages, IReadOnlyDictionary<string, (int Isometric, int Spool)> firsts)
    {
        var title = cover.Count == 1 ? $"{cover[0].Drawing} shop packet" : "Shop packet";
        return Instead("Cover", paper, () =>
        {
            // The cover's own length counts in every figure on it: made again until it is as long as it says.
            var (own, made) = (1, Of(1));
            while (made.Count != own)
                (own, made) = (made.Count, Of(made.Count));
            return made;
        });

        IReadOnlyList<Page> Of(int own)
        {
            List<(Reader, int, int)> rows = [(Reader.All, 1, own)];
            var at = own + 1;
            foreach (var (reader, count) in pages)
            {
                rows.Add((reader, at, count));
                at += count;
            }

            int Page(int place) => place == 0 ? 0 : place + own;
            return Sheets.Cover.Of(title, cover, rows, firsts.ToDictionary(p => p.Key, p => (Page(p.Value.Isometric), Page(p.Value.Spool)), StringComparer.Ordinal), paper);
        }
    }

    private static IReadOnlyList<Page> Instead(string title, Paper paper, Func<IReadOnlyList<Page>> draw)
    {
        try
        {
            return draw();
        }
        catch (Exception e) when (ProgramFault.IsOne(e))
        {
            return [MissingSheet.Of("", "", title, paper, ProgramFault.Words(e))];
        }
    }
}
