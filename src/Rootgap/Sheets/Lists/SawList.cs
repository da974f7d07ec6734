using System.Globalization;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Routes;
using Rootgap.Standards;

namespace Rootgap.Sheets;

/// <summary>One piece as the saw and whoever checks its sum see it.</summary>
/// <param name="Bevel">How a bevelled end of it is prepared, in full; empty where it has none.</param>
/// <param name="LeftOn">What is in the length besides the pipe that stays; empty where nothing is.</param>
/// <param name="Sum">Terms and total, and what the saw leaves besides.</param>
/// <param name="Kerf">What the saw takes at each cut, mm; it is in no length.</param>
/// <param name="IsShort">The sum comes to nothing or less: there is no such piece.</param>
internal sealed record SawRow(
    string Drawing, string Revision, string Piece, Units Units, NominalSize Size, string Schedule, string Material, double SawLength, string Ends, string Bevel, string LeftOn, string Sum, double Kerf,
    bool IsShort, bool IsBuildable)
{
    public static IEnumerable<SawRow> Of(ShopJob job) => job.Fabrication.Cuts.Where(c => c.IsCut).Select(c => new SawRow(
            job.Drawing.Number, job.Drawing.Revision, c.Piece, job.Drawing.Units, c.Pipe.Size, c.Pipe.Line.Schedule.ToString(), c.Pipe.Line.Material, c.SawLength,
            EndsOf(c), new[] { c.AtStart, c.AtEnd }.FirstOrDefault(e => e.Word == "bevel")?.Says ?? "", LeftOnOf(job.Drawing.Units, c), SumWords.Of(c, job.Drawing.Units), job.Drawing.Shop.Kerf, CannotBeCut(c), job.IsBuildable))
        .Concat(job.Fabrication.MadeBends.Select(b => new SawRow(
            job.Drawing.Number, job.Drawing.Revision, b.Piece, job.Drawing.Units, b.Bend.Size, b.Bend.Line.Schedule.ToString(), b.Bend.Line.Material, b.Bend.PipeLength,
            b.Bend.IsMitred ? string.Create(CultureInfo.InvariantCulture, $"{EndsOf(b.Bend, job.Drawing.Units)}; {b.Bend.Cuts} mitre cuts at {Angles.ToDegrees(b.Bend.Cut):0.##}°") : EndsOf(b.Bend, job.Drawing.Units), "", "",
            SumWords.Parts(b.Bend, job.Drawing.Units) is var (terms, total) ? $"{terms} = {total}" : "", job.Drawing.Shop.Kerf, IsShort: false, job.IsBuildable)));

    /// <summary>How many pieces the saw cuts: pipe, and the blanks of bends; nipples are bought.</summary>
    public static int CountOf(Fabrication f) => f.Cuts.Count(c => c.IsCut) + f.MadeBends.Count();

    /// <summary>No such piece can be cut: the fittings take more than there is.</summary>
    public static bool CannotBeCut(Cut cut) => cut.Length <= Tolerance.Noise;

    /// <summary>What is done at its ends, in few words.</summary>
    public static string EndsOf(Cut cut) => cut.AtStart.Brief == cut.AtEnd.Brief ? $"{cut.AtStart.Brief} both" : $"{cut.AtStart.Brief}, {cut.AtEnd.Brief}";

    /// <summary>The same of a bend that the shop makes of pipe.</summary>
    public static string EndsOf(MadeBend bend, Units units) => $"{EndPreparation.Bevel(bend.Wall, units).Brief} both";

    /// <summary>What is in the length besides the pipe that stays: trimmed at site, or cut away with the saddle.</summary>
    public static string LeftOnOf(Units units, Cut cut) => string.Join("; ", new[] { cut.Extra > 0 ? $"{LengthText.In(units, cut.Extra)} final fit" : "", cut.Saddle > 0 ? $"{LengthText.In(units, cut.Saddle)} saddle" : "" }.Where(t => t.Length > 0));
}

/// <summary>One cut list over all drawings by material and size, longest first, and behind it the sums.</summary>
internal static class SawList
{
    private const string CannotBeCut = "cannot be cut";

    private static readonly TextStyle Style = TextStyle.Small;

    public static IReadOnlyList<Page> Of(IReadOnlyList<SawRow> rows, int drawings, Paper paper)
    {
        if (rows.Count == 0)
            return [];
        var block = new TitleBlock("", "", "Cut list") { Reader = Reader.Saw, Notice = NoticeOf(rows), Project = "by material and size, longest first" };
        return [.. Cuts(rows, drawings, paper, block), .. Sums(rows, paper, block)];
    }

    private static string NoticeOf(IReadOnlyList<SawRow> rows)
    {
        var stopped = rows.Where(r => !r.IsBuildable).Select(r => r.Drawing).Distinct(StringComparer.Ordinal).ToList();
        return stopped.Count == 0 ? "" : stopped.Count > 3 ? "NOT FOR FABRICATION: drawings marked below" : "NOT FOR FABRICATION: " + string.Join(", ", stopped);
    }

    private static IReadOnlyList<Page> Cuts(IReadOnlyList<SawRow> rows, int drawings, Paper paper, TitleBlock block)
    {
        var flow = new Flow(paper.Portrait, block);
        flow.Paragraph(string.Create(CultureInfo.InvariantCulture, $"{drawings} {(drawings == 1 ? "drawing" : "drawings")}, {rows.Count} {(rows.Count == 1 ? "piece" : "pieces")}. Lengths to the nose of the bevel, what is left on included, in each drawing's own unit; the saw takes {KerfOf(rows)} besides at each cut. Write piece and heat number on both ends before the piece leaves the saw. The sum behind each length is on the pages after these. First piece of each size: tape it, then go on."), Style);
        flow.Table(new Table(
            [new("piece", ColumnWidth.Of(36)), new("saw to", ColumnWidth.Of(41), Anchor.End), new("ends", ColumnWidth.Of(25)), new("left on in it", ColumnWidth.Of(28)), new("bar, heat number", ColumnWidth.Share()), new("cut", ColumnWidth.Of(9)), new("marked", ColumnWidth.Of(16))],
            rows.GroupBy(r => (r.Material, r.Size, r.Schedule)).OrderBy(g => g.Key.Material, StringComparer.Ordinal).ThenByDescending(g => g.Key.Size.Inches).ThenBy(g => g.Key.Schedule, StringComparer.Ordinal).SelectMany(Group))
        { Style = Style, RowHeight = 6, LeastRowHeight = 5.2 });
        return flow.Pages;
    }

    private static string KerfOf(IReadOnlyList<SawRow> rows) =>
        string.Join(" or ", rows.Select(r => (r.Units, r.Kerf)).Distinct().OrderBy(k => k.Units).ThenBy(k => k.Kerf).Select(k => LengthText.In(k.Units, k.Kerf) + (k.Units == Units.Inches ? "" : " mm")));

    private static IEnumerable<Row> Group(IGrouping<(string Material, NominalSize Size, string Schedule), SawRow> group)
    {
        var whole = group.Where(r => !r.IsShort).Sum(r => r.SawLength) / 1000;
        var units = group.All(r => r.Units == Units.Inches) ? Units.Inches : Units.Millimetres;
        var isMixed = units == Units.Millimetres && group.Any(r => r.Units == Units.Inches);
        var bevel = group.Select(r => r.Bevel).FirstOrDefault(b => b.Length > 0);
        yield return new(string.Create(CultureInfo.InvariantCulture, $"NPS {group.Key.Size}   schedule {group.Key.Schedule}   {group.Key.Material}{(bevel is null ? "" : $"   {bevel}")}   {group.Count()} {(group.Count() == 1 ? "piece" : "pieces")}, {LengthText.Pipe(units, whole)}{(isMixed ? $" ({LengthText.Pipe(Units.Inches, whole)})" : "")}")) { Group = true };
        foreach (var r in group.OrderBy(r => r.IsShort).ThenByDescending(r => r.SawLength))
        {
            yield return new(
                new Cell($"{r.Drawing}  {r.Piece}") { Bold = true },
                r.IsShort ? Cell.Warn(CannotBeCut) : new Cell(LengthText.In(r.Units, r.SawLength)) { Bold = true, Height = 4 },
                r.IsShort ? "see the cover" : r.IsBuildable ? r.Ends : Cell.Warn("do not cut"), r.IsShort ? "" : r.LeftOn, "", r.IsShort ? "" : Cell.Box(), r.IsShort ? "" : Cell.Box())
            { Id = $"{r.Drawing}-{r.Piece}" };
        }
    }

    private static IReadOnlyList<Page> Sums(IReadOnlyList<SawRow> rows, Paper paper, TitleBlock block)
    {
        var flow = new Flow(paper.Portrait, block with { Title = "Sums of the cut list", Project = "for whoever checks" });
        // Before the table: behind it a full last page would leave them a page of their own.
        if (rows.Any(r => r.Sum.Contains(Wording.MemorySign, StringComparison.Ordinal)))
            flow.Paragraph($"{Wording.MemorySign} {Wording.FromMemory}: measure the part before it is cut for, and give the shop's `measured`.", Style);
        flow.Paragraph("Gaps, extras and allowances are the shop's rules; dimensions of fittings are the standards': each with its source in packet.json.", Style);
        flow.Table(new Table(
            [new("piece", ColumnWidth.Fit), new("sum: what is printed adds up", ColumnWidth.Share()), new("saw to", ColumnWidth.Fit, Anchor.End)],
            rows.GroupBy(r => (r.Drawing, r.Revision, r.Units)).SelectMany(g => g.Select(r => new Row(
                new Cell(r.Piece) { Bold = true }, r.Sum, r.IsShort ? Cell.Warn("none") : new Cell(LengthText.In(r.Units, r.SawLength)) { Bold = true }))
                .Prepend(new Row($"{g.Key.Drawing}, revision {g.Key.Revision}, {(g.Key.Units == Units.Inches ? "feet, inches and 64ths" : "mm")}") { Group = true })))
        { Style = Style, RowHeight = 5.4, LeastRowHeight = 5.2 });
        return flow.Pages;
    }
}
