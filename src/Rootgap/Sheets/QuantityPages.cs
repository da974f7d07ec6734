using System.Globalization;
using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Papers;
using Rootgap.Routes;
using Rootgap.Standards;
using Rootgap.Sums;

namespace Rootgap.Sheets;

/// <summary>What the welds of one drawing take: of all that a list over many drawings needs.</summary>
internal sealed record QuantityRow(string Drawing, Units Units, Quantities Welds, string? Purge)
{
    public static QuantityRow Of(ShopJob job) =>
        new(job.Drawing.Number, job.Drawing.Units, Quantities.Of(job.Fabrication), Hazards.PurgeAt(job.Fabrication.Route, job.Fabrication.Route.Joints));
}

/// <summary>What the welds take, over all drawings: counts, diameter-inches, weld metal, what is bought, hours; welds that take the same stand in one row. Planning figures.</summary>
internal static class QuantityPages
{
    private static readonly TextStyle Style = TextStyle.Small;

    public static IReadOnlyList<Page> Of(IReadOnlyList<QuantityRow> rows, Paper paper)
    {
        var some = rows.Where(r => r.Welds.Welds.Count > 0).ToList();
        if (some.Count == 0)
            return [];
        var flow = new Flow(paper.Portrait, new TitleBlock("", "", some.Count == 1 ? $"{some[0].Drawing} welds: what they take" : "Welds: what they take") { Reader = Reader.Inspector, Project = Many(some.Count) });
        flow.Table(new Table(
            ["drawing", "", .. Each((_, name) => new Column(name, Anchor.End)), new("diameter-inches, butt", Anchor.End), new("hours, butt", Anchor.End)],
            from r in some
            from shop in new[] { true, false }
            let welds = r.Welds.Welds.Where(w => w.IsShop == shop).ToList()
            where welds.Count > 0
            let butts = welds.FindAll(w => w.Joint.Kind == JointKind.Butt)
            select new Row(
            [
                new Cell(r.Drawing) { Bold = true }, shop ? "shop" : "site", .. Each((kind, _) => new Cell(r.Welds.Of(kind, shop).Count is > 0 and var count ? Whole(count) : "–")),
                // Nothing is reckoned of the other kinds: that is not nought.
                new Cell(butts.Count > 0 ? Number(butts.Sum(w => w.DiameterInches)) : "–") { Bold = true }, butts.Count > 0 ? Hours(butts) : "–",
            ]))
        { Style = Style, LeastRowHeight = 5.2 });
        flow.Table(new Table(
            [new("drawing", ColumnWidth.Fit), new("to buy", ColumnWidth.Of(36)), new("for pipe of", ColumnWidth.Share()), new("weld metal", Anchor.End), new("efficiency", Anchor.End), new("buy", Anchor.End)],
            from r in some
            from b in r.Welds.ToBuy
            select new Row(new Cell(r.Drawing) { Bold = true }, new Cell(b.Filler.IsAssumed ? $"process not given; as for {b.Filler.Process}" : b.Filler.Process) { Bold = true }, b.Material, Mass(r.Units, b.Metal), b.Filler.Efficiency.ToString("0.00", CultureInfo.InvariantCulture), new Cell(Mass(r.Units, b.ToBuy)) { Bold = true }))
        { Style = Style, LeastRowHeight = 5.2 });
        foreach (var filler in some.SelectMany(r => r.Welds.ToBuy).Select(b => b.Filler).DistinctBy(b => (b.Process, b.Source)))
            flow.Paragraph($"Efficiency of {filler.Process}: {filler.Source}.", Style);
        flow.Paragraph(Quantities.Says, Style);
        flow.Paragraph("Diameter-inches and hours are those of the butt welds alone; sockets, slip-on flanges and branches are counted beside them and take their own time. The process is the shop's rule; which filler goes with which metal, the welding procedure says.", Style);
        flow.Paragraph(MetalOf([.. some.Select(r => r.Units).Distinct().Order()]), Style);
        foreach (var purge in some.Where(r => r.Purge is not null))
            flow.Paragraph($"{purge.Drawing}, {purge.Purge}", Style with { Bold = true });
        flow.Table(new Table(
            [new("weld, each of", ColumnWidth.Share()), "kind", "place", "NPS", new("wall", Anchor.End), new("gap", Anchor.End), new("section", Anchor.End), new("metal", Anchor.End), new("buy", Anchor.End), new("hours", Anchor.End), "with"],
            some.SelectMany(r => (IEnumerable<Row>)[new Row(new Cell(r.Drawing)) { Group = true }, .. Welds(r)]))
        { Style = Style, LeastRowHeight = 5.2 });
        return flow.Pages;
    }

    /// <summary>How the metal is reckoned; the least throat of a branch's fillet as B31.3 figure 328.5.4D has it in both units, from memory.</summary>
    private static string MetalOf(IReadOnlyList<Units> units)
    {
        string Each(Func<Units, string> says) => string.Join(" or ", units.Select(says));
        var compound = Each(u => LengthText.Say(u, $"{PipeEnds.CompoundOver.Of(default)!.In(u):gap}") + (u == Units.Inches ? "" : " mm"));
        return $"Weld metal of a butt weld: gap × wall + (wall − land)² × tan bevel (compound above {compound}) + cap 2/3 × width × height + root, each by the circle of its own centroid. Sockets: leg 1.09 × wall; slip-on flanges: 1.4 × wall outside, the wall inside (from memory of B31.3). Branches set on: one bevel of 45° through the wall, and over it a fillet with a throat of 0.7 × wall, at most {Each(u => u == Units.Inches ? "1/4\"" : "6 mm")}, along the true saddle (from memory of B31.3). The groove of an outlet is its maker's: counted, no metal.";
    }

    /// <summary>A cross-section, mm² or in²: nobody lays a bead nearer than that.</summary>
    private static string Section(Units units, double area) => units == Units.Inches
        ? string.Create(CultureInfo.InvariantCulture, $"{Amount.In(Quantity.Area, area, units):0.000} in²")
        : string.Create(CultureInfo.InvariantCulture, $"{area:0.0} mm²");

    private static IEnumerable<Row> Welds(QuantityRow r) => r.Welds.Welds
        .Select(w => (w.Joint.Id, Says: (IReadOnlyList<string>)
        [
            Wording.Of(w.Joint.Kind).Replace(" weld", "", StringComparison.Ordinal), Wording.Of(w.Joint.Place).ToLowerInvariant(), w.Joint.Size.ToString(), JointRegister.Wall(r.Units, w.Joint.Wall), w.Joint.Kind == JointKind.Butt ? LengthText.Say(r.Units, $"{w.Joint.Gap:gap}") : "",
            w.Metal is { } m ? Section(r.Units, m.Area) : "", w.Mass is { } kg ? Mass(r.Units, kg) : "", w.ToBuy is { } buy ? Mass(r.Units, buy) : "", w.Hours is { } h ? h.ToString("0.0", CultureInfo.InvariantCulture) : w.Joint.Kind == JointKind.Butt ? "not known" : "", w.Metal is null ? "not reckoned" : w.Filler.IsAssumed ? "not given" : w.Filler.Process,
        ]))
        .GroupBy(w => string.Join('\n', w.Says), StringComparer.Ordinal)
        .Select(g => new Row([new Cell(Names([.. g.Select(w => w.Id)])) { Bold = true }, .. g.First().Says.Select(s => new Cell(s))]));

    /// <summary>Three and more that follow each other by number are one stretch: <c>W1–W7, W9</c>.</summary>
    internal static string Names(IReadOnlyList<string> ids)
    {
        List<(string First, string Last, int Count)> stretches = [];
        foreach (var id in ids)
        {
            if (stretches.Count > 0 && stretches[^1] is var last && Follows(last.Last, id))
                stretches[^1] = (last.First, id, last.Count + 1);
            else
                stretches.Add((id, id, 1));
        }

        return string.Join(", ", stretches.Select(s => s.Count > 2 ? $"{s.First}–{s.Last}" : s.Count == 2 ? $"{s.First}, {s.Last}" : s.First));

        static bool Follows(string before, string id) =>
            before.Length > 1 && id.Length > 1 && before[0] == id[0] && int.TryParse(before.AsSpan(1), NumberStyles.None, CultureInfo.InvariantCulture, out var a) && int.TryParse(id.AsSpan(1), NumberStyles.None, CultureInfo.InvariantCulture, out var b) && b == a + 1;
    }

    private static IEnumerable<T> Each<T>(Func<JointKind, string, T> made) =>
        from k in new[] { (JointKind.Butt, "butt"), (JointKind.Socket, "socket"), (JointKind.Fillet, "slip-on"), (JointKind.Branch, "branch") } select made(k.Item1, k.Item2);

    /// <summary>Added up where every weld has a figure; else what is known, and how many are not.</summary>
    private static string Hours(IReadOnlyList<WeldQuantity> butts)
    {
        var unknown = butts.Count(w => w.Hours is null);
        var sum = butts.Sum(w => w.Hours ?? 0).ToString("0.0", CultureInfo.InvariantCulture);
        return unknown == 0 ? sum : string.Create(CultureInfo.InvariantCulture, $"{sum} + {unknown} not known");
    }

    private static string Mass(Units units, double kg) => $"{LengthText.Millimetres(Amount.In(Quantity.Mass, kg, units), kg >= 1 ? 2 : 3)} {Amount.Unit(Quantity.Mass, units)}";

    private static string Number(double value) => value.ToString("0.##", CultureInfo.InvariantCulture);

    private static string Whole(int n) => n.ToString(CultureInfo.InvariantCulture);

    private static string Many(int drawings) => drawings == 1 ? "1 drawing" : Whole(drawings) + " drawings";
}
