using System.Globalization;
using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Papers;
using Rootgap.Routes;
using Rootgap.Sums;

namespace Rootgap.Sheets;

/// <summary>What the welds of a drawing take: counts, diameter-inches, weld metal, what is bought, hours. Planning figures.</summary>
internal static class QuantityPages
{
    private static readonly TextStyle Dense = TextStyle.Body with { Height = 3 };

    public static IReadOnlyList<Page> Of(ShopJob job)
    {
        var q = Quantities.Of(job.Fabrication);
        if (q.Welds.Count == 0)
            return [];
        var units = job.Drawing.Units;
        var flow = new Flow(job.Paper, job.Block("welds: what they take", Reader.Inspector));
        flow.Table(new Table(
            ["", .. Each((_, name) => new Column(name, Anchor.End)), new("Diameter-inches", Anchor.End), new("Hours", Anchor.End)],
            new[] { true, false }.Select(shop => new Row(
            [
                new Cell(shop ? "Shop" : "Site") { Bold = true },
                .. Each((kind, _) => new Cell(Whole(q.Of(kind, shop).Count))),
                new Cell(Number(q.Welds.Where(w => w.IsShop == shop).Sum(w => w.DiameterInches))) { Bold = true },
                Hours([.. q.Welds.Where(w => w.IsShop == shop && w.Joint.Kind == JointKind.Butt)]),
            ])))
        { Style = Dense });
        flow.Table(new Table(
            [new("To buy", ColumnWidth.Of(40)), new("Weld metal", Anchor.End), new("Efficiency", Anchor.End), new("Buy", Anchor.End), new("From", ColumnWidth.Share(2))],
            q.ToBuy.Select(b => new Row(new Cell(b.Filler.Process) { Bold = true }, Mass(units, b.Metal), b.Filler.Efficiency.ToString("0.00", CultureInfo.InvariantCulture), new Cell(Mass(units, b.ToBuy)) { Bold = true }, b.Filler.Source)))
        { Style = Dense });
        flow.Paragraph(Quantities.Says, TextStyle.Small with { Height = 3 });
        flow.Paragraph("Weld metal of a butt weld: gap × wall + (wall − land)² × tan bevel (compound above 22 mm) + cap 2/3 × width × height + root, each by the circle of its own centroid. Sockets: leg 1.09 × wall; slip-on flanges: 1.4 × wall outside, the wall inside (from memory of B31.3). Branches set on: one bevel of 45° through the wall, and over it a fillet with a throat of 0.7 × wall, at most 6 mm, along the true saddle (from memory of B31.3). The groove of an outlet is its maker's: counted, no metal.", TextStyle.Small);
        if (Hazards.PurgeAt(job.Fabrication.Route, job.Fabrication.Route.Joints) is { } purge)
            flow.Paragraph(purge, TextStyle.Strong with { Height = 3 });
        flow.Table(new Table(
            ["Weld", "Kind", "Place", "NPS", new("Wall", Anchor.End), new("Gap", Anchor.End), new("Section", Anchor.End), new("Metal", Anchor.End), new("Buy", Anchor.End), new("Hours", Anchor.End), new("What", ColumnWidth.Share())],
            q.Welds.Select(w => new Row(
                new Cell(w.Joint.Id) { Bold = true }, Wording.Of(w.Joint.Kind), Wording.Of(w.Joint.Place), w.Joint.Size.ToString(), LengthText.Say(units, $"{w.Joint.Wall:small}"), w.Joint.Kind == JointKind.Butt ? LengthText.Say(units, $"{w.Joint.Gap:small}") : "",
                w.Metal is { } m ? Amount.Say(Quantity.Area, m.Area, units) : "", w.Mass is { } kg ? Mass(units, kg) : "", w.ToBuy is { } buy ? Mass(units, buy) : "", w.Hours is { } h ? h.ToString("0.0", CultureInfo.InvariantCulture) : w.Joint.Kind == JointKind.Butt ? "not known" : "", w.Metal is null ? "not reckoned" : w.Filler.Process)))
        { Style = TextStyle.Small });
        return flow.Pages;
    }

    private static IEnumerable<T> Each<T>(Func<JointKind, string, T> made) =>
        from k in new[] { (JointKind.Butt, "Butt"), (JointKind.Socket, "Socket"), (JointKind.Fillet, "Slip-on"), (JointKind.Branch, "Branch") } select made(k.Item1, k.Item2);

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
}
