using System.Globalization;
using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Sheets;

/// <summary>One sheet a spool: a view, its pieces, joints, mass and box.</summary>
internal static class SpoolPages
{
    public static IEnumerable<Page> Of(ShopJob job) => job.Fabrication.Spools.SelectMany(s => One(job, s));

    private static IReadOnlyList<Page> One(ShopJob job, Spool spool)
    {
        var f = job.Fabrication;
        var block = job.Block($"Spool {spool.Name}");
        var flow = new Flow(job.Paper, block);
        flow.Figure(Isometric.Of(f, spool, flow.Width, 120));
        flow.Fields(4,
            new Field("Mass", Wording.Kg(spool.Mass), "kg"),
            new Field("Box east x north x up", $"{Wording.Mm(spool.Box.X)} x {Wording.Mm(spool.Box.Y)} x {Wording.Mm(spool.Box.Z)}", "mm"),
            new Field("Centre of mass from the box's west, south, low corner", string.Join(", ", new[] { spool.CentreOfMass.X - spool.BoxFrom.X, spool.CentreOfMass.Y - spool.BoxFrom.Y, spool.CentreOfMass.Z - spool.BoxFrom.Z }.Select(v => LengthText.WholeMillimetres(v))), "mm"),
            new Field("Paint / content", $"{(spool.PaintArea / 1e6).ToString("0.00", CultureInfo.InvariantCulture)} m² / {(spool.Content / 1e6).ToString("0.0", CultureInfo.InvariantCulture)} l"));
        if (spool.Unweighed.Count > 0)
            flow.Paragraph($"Not in the mass: {string.Join(", ", spool.Unweighed.Select(id => Wording.NameOf(f, id)))}. Take it from the maker's sheet before lifting.", TextStyle.Strong);
        flow.Table(new Table(
            ["Piece", "NPS", new("Saw, mm", Anchor.End), new("ft-in", Anchor.End), new("Ends", ColumnWidth.Share()), new("Heat number", ColumnWidth.Of(34)), "Done"],
            spool.Cuts.Select(c => new Row(
                new Cell(c.Piece) { Bold = true }, c.Pipe.Size.ToString(), new Cell(Wording.Mm(c.SawLength)) { Bold = true }, LengthText.FeetInches(c.SawLength),
                $"{ShopPages.Ends(c)}{(c.Extra > 0 ? $"; {Wording.Mm(c.Extra)} final-fit extra in it" : "")}{(c.Saddle > 0 ? $"; {Wording.Mm(c.Saddle)} saddle in it" : "")}", "", Cell.Box()))) { RowHeight = 9, WhenEmpty = "no pipe" });
        flow.Table(new Table(
            ["Part", "Item", new("What", ColumnWidth.Share()), "NPS", new("kg", Anchor.End), new("Heat number", ColumnWidth.Of(34)), "Done"],
            spool.Components.Select(c => new Row(
                new Cell(c.Id) { Bold = true }, c.Item is { } item ? item.Item.ToString(CultureInfo.InvariantCulture) + (c.IsItemGuessed ? " *" : "") : "–", Wording.Of(c), Wording.Size(c),
                f.Masses.TryGetValue(c.Id, out var m) ? Wording.Kg(m.Kg) : "?", "", Cell.Box()))) { RowHeight = 9, WhenEmpty = "no fittings" });
        flow.Table(new Table(
            ["Joint", "Kind", "Place", new("Between", ColumnWidth.Share()), new("Tacked", ColumnWidth.Of(18)), new("Welded", ColumnWidth.Of(18)), new("Checked", ColumnWidth.Of(18))],
            spool.Joints.Concat(spool.Ends).Select(j => new Row(
                new Cell(j.Id) { Bold = true }, Wording.Of(j.Kind), j.Kind == JointKind.Bolted ? "bolted" : Wording.Of(j.Place), Wording.Between(f, j), Cell.Box(), Cell.Box(), Cell.Box()))) { RowHeight = 9, WhenEmpty = "no joints" });
        flow.Table(new Table(
            ["Leg", new("As fitted, mm", Anchor.End), new("Butt welds", Anchor.End), new("After welding, mm", Anchor.End), new("Measured", ColumnWidth.Share())],
            spool.Lengths.Select(l => new Row(
                string.Create(CultureInfo.InvariantCulture, $"{job.Drawing.Runs[l.Run].Name}, leg {l.Leg + 1}"), Wording.Mm(l.AsFitted), l.Welds.ToString(CultureInfo.InvariantCulture),
                Math.Abs(l.High - l.Low) < 0.05 ? Wording.Mm(l.Low) : $"{Wording.Mm(l.Low)} to {Wording.Mm(l.High)}", ""))) { RowHeight = 9 });
        return flow.Pages;
    }
}
